/** The limits that come with the project, which a scenario's own are compared with. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { home } from '../home.ts';
import type { LimitRow } from '../scenario/limit-row.ts';
import { type LimitsText, readLimitsText } from '../scenario/read.ts';

const name = 'models/limits-default.yaml';

/** models/limits-default.yaml as it stands beside the sources. */
export function shippedLimitsText(): LimitsText {
  return { file: name, text: readFileSync(join(home, name), 'utf8') };
}

/** Its rows. */
export function shippedLimits(): readonly LimitRow[] {
  const { file, text } = shippedLimitsText();
  return readLimitsText(file, text);
}
