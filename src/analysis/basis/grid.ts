/**
 * Several cabinets at one point of connection. That their loads fall together is the most they can do; that they are
 * independent is a claim, and swings are smaller by it: a condition. Where a feeder gives way the run itself has them, all
 * alike, and its verdict says nothing of what the averaged line leaves out.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, writtenBy } from './entry.ts';

export function gridBasis(scenario: Stated): BasisEntry[] {
  return [...crowdBasis(scenario), ...givingBasis(scenario)];
}

function givingBasis({ feeders, shelves }: Stated): BasisEntry[] {
  const giving = feeders.filter(
    ({ id, values }) => values.gives_way_ratio > 0 && shelves.some(({ feeder }) => feeder === id),
  );
  if (giving.length === 0) return [];
  const names = giving.map(({ id }) => id).join(', ');
  return [
    entry('assumed', `rectifiers and the line of ${names} do not oscillate against each other`, {
      reason:
        'the line is one of RMS values in balance: its inductance, filters of the input stages and their current loops are not modelled',
    }),
  ];
}

function crowdBasis(scenario: Stated): BasisEntry[] {
  const { cabinets_on_feeder_count: count, coincidence } = scenario;
  if (count <= 1) return [];
  const by = writtenBy(scenario, 'coincidence');
  return coincidence === 'independent'
    ? [entry('assumed', `${count} cabinets swing independently`, { by, conditions: true })]
    : [entry('assumed', `${count} cabinets swing together`, { by })];
}
