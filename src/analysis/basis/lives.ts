/** Lives are in no run of seconds: what the window would give if it went on, beside what is asked for. */

import type { BasisEntry } from '../basis.ts';
import { numberText } from '../number-text.ts';
import type { Finding } from '../report.ts';
import { entry } from './entry.ts';

export function livesBasis(findings: readonly Finding[]): BasisEntry[] {
  const lives = findings.filter(
    ({ verdict, value, limit, unit }) =>
      verdict === 'not_applicable' && value !== null && limit !== null && unit === 's' && value < limit,
  );
  return lives.map(({ id, node, value, limit }) =>
    entry(
      'assumed',
      `${id} is not judged by a run: like this without end ${node} lasts ${numberText(value!, 's')}, ` +
        `less than the ${numberText(limit!, 's')} asked for`,
      { reason: 'years of load, air and coolant are in no run of seconds' },
    ),
  );
}
