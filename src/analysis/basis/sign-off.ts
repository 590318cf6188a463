/** What a reviewer added: conditions of the scenario, and waivers with who, why and until when. */

import type { BasisEntry } from '../basis.ts';
import type { Finding } from '../judge/report.ts';
import { ranOut } from '../judge/waive.ts';
import type { Stated } from '../record/stated.ts';
import { entry, writtenBy } from './entry.ts';

export function signOffBasis(scenario: Stated, findings: readonly Finding[]): BasisEntry[] {
  const { conditions, waivers, judged_on = null, id } = scenario;
  return [
    ...conditions.map((what) =>
      entry('stated', what, { by: writtenBy(scenario, 'conditions') ?? id, conditions: true }),
    ),
    ...waivers.map(({ limit, reason, by, until }) => {
      const holding = !ranOut({ until }, judged_on);
      const needed = findings.some((f) => f.id === limit && f.verdict === 'waived');
      const end = until === null ? '' : ` until ${until}`;
      const what = !holding
        ? `waiver of ${limit} expired on ${until}: the limit judges again`
        : needed
          ? `${limit} waived${end}`
          : `waiver of ${limit}${end}, not needed in this run`;
      return entry('waived', what, {
        by: by ?? '--waive, no name given',
        reason,
        conditions: holding && needed,
      });
    }),
  ];
}
