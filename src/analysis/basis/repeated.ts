/** A cycle that is judged as if it went on for as long as a limit asks. */
import type { BasisEntry } from '../basis.ts';
import type { Cycle } from '../record/cycle.ts';
import { entry } from './entry.ts';

export function repeatedBasis(cycle: Cycle | string): BasisEntry[] {
  if (typeof cycle === 'string') return [];
  const reason =
    'limits that require longer (0.1 Hz, ten minutes, two hours, heat) are judged on the repeated cycle';
  return [entry('repeated', `${cycle.words} represent the load, repeated indefinitely`, { reason })];
}
