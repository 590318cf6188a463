/**
 * Several cabinets at one point of connection. That their loads fall together is the most they can do; that they are
 * independent is a claim, and swings are smaller by it: a condition.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, writtenBy } from './entry.ts';

export function gridBasis(scenario: Stated): BasisEntry[] {
  const { cabinets_on_feeder_count: count, coincidence } = scenario;
  if (count <= 1) return [];
  const by = writtenBy(scenario, 'coincidence');
  return coincidence === 'independent'
    ? [entry('assumed', `${count} cabinets swing independently`, { by, conditions: true })]
    : [entry('assumed', `${count} cabinets swing together`, { by })];
}
