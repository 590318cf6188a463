/**
 * An outage that the scenario states makes the wider column of the limits apply, where the record shows something out
 * or altered. Where it shows nothing, the normal column applies all the same.
 */

import type { BasisEntry } from '../basis.ts';
import type { Outage } from '../record/outage.ts';
import type { Stated } from '../record/stated.ts';
import { namedFew } from '../words/named-few.ts';
import { entry, writtenBy } from './entry.ts';

const most = 3;

export function outageBasis(scenario: Stated, { kind, who }: Outage): BasisEntry[] {
  if (!scenario.outage) return [];
  const by = writtenBy(scenario, 'outage');
  const named = namedFew(who, most);
  switch (kind) {
    case 'none':
      return [entry('warned', 'an outage is stated and nothing was out: the normal column applies', { by })];
    case 'altered':
      return [
        entry('assumed', `an outage is stated; ${named} altered, nothing out: the degraded column applies`, {
          by,
        }),
      ];
    case 'real':
      return [entry('chosen', `an outage is stated (${named} out): the degraded column applies`, { by })];
  }
}
