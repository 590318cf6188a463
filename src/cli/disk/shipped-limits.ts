/** The limits that come with the project, which a scenario's own are compared with. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { home } from '../../home.ts';
import type { LimitRow } from '../../scenario/limit-row.ts';
import { readLimitsText } from '../../scenario/read.ts';

const name = 'models/limits-50v.yaml';

/** Rows of models/limits-50v.yaml as it stands beside the sources. */
export function shippedLimits(): readonly LimitRow[] {
  return readLimitsText(name, readFileSync(join(home, name), 'utf8'));
}
