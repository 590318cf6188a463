/** Lives are in no run of seconds: what the window would give if it went on, beside what is asked for. */

import type { BasisEntry } from '../basis.ts';
import type { Finding } from '../judge/report.ts';
import type { Cycle } from '../record/cycle.ts';
import { entry } from './entry.ts';

const year_s = 8766 * 3600;

export function livesBasis(cycle: Cycle | string, findings: readonly Finding[]): BasisEntry[] {
  // Of a load that does not repeat nothing can be said for years.
  if (typeof cycle === 'string') return [];
  const lives = findings.filter(
    ({ verdict, value, limit, unit }) =>
      verdict === 'not_applicable' && value !== null && limit !== null && unit === 's' && value < limit,
  );
  return lives.map(({ id, node, value, limit }) =>
    entry(
      'assumed',
      `${id} is judged by buswake duty, not by a run: under this load, uninterrupted, ${node} lasts about ${years(value!)}, ` +
        `less than the ${years(limit!)} required`,
      {
        reason: 'a run of seconds cannot show years of load, air and coolant',
      },
    ),
  );
}

function years(life_s: number): string {
  return `${Number((life_s / year_s).toPrecision(2))} years`;
}
