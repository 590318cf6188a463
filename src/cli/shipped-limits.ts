/** The limits that come with the project, which a scenario's own are compared with. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readLimitsText } from '../scenario/read.ts';
import type { LimitRow } from '../scenario/scenario.ts';

const name = 'models/limits-50v.yaml';

/** Rows of models/limits-50v.yaml as it stands beside the sources. */
export function shippedLimits(): readonly LimitRow[] {
  return readLimitsText(name, readFileSync(fileURLToPath(new URL(`../../${name}`, import.meta.url)), 'utf8'));
}
