/**
 * The decision rule, in the sense of JCGM 106:2012 and ILAC-G8:09/2019: simple acceptance with a guard band as wide as
 * the numerical doubt. What parts scatter by is not in the band: that is what the study `spread` is for.
 */
import type { BasisEntry } from '../basis.ts';
import { tie_ratio } from '../tie.ts';
import { entry } from './entry.ts';

const scatter = 'tolerances of parameters are not in it (that is what spread is for)';

export const notGuarded: BasisEntry = entry('rule', 'simple acceptance, not guarded', {
  reason: `the numerical doubt was not measured (--doubt does); a value within ${tie_ratio} of its limit, relative, lies on it and keeps it; ${scatter}`,
});

/** `how`: what the doubt was measured by. */
export function guarded(how: string): BasisEntry {
  return entry('rule', 'simple acceptance, guarded by the numerical doubt', {
    reason: `doubt: the largest move among ${how}; a pass within it is a condition, a fail within it stays a fail; ${scatter}`,
  });
}
