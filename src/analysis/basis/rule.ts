/**
 * The decision rule, in the sense of JCGM 106:2012 and ILAC-G8:09/2019: simple acceptance with a guard band as wide as
 * the numerical doubt. What parts scatter by is not in the band: that is what the study `spread` is for.
 */
import type { BasisEntry } from '../basis.ts';
import { tie_ratio } from '../judge/tie.ts';
import { entry } from './entry.ts';

const scatter = 'tolerances of parameters are not included (see the study spread)';

export const notGuarded: BasisEntry = entry('rule', 'simple acceptance, not guarded', {
  reason: `the numerical doubt was not measured (--doubt measures it); a value within ${1e6 * tie_ratio} ppm of its limit counts as at the limit, and passes; ${scatter}`,
});

/** `ways`: how the run was varied, as phrases. */
export function guarded(ways: readonly string[]): BasisEntry {
  return entry('rule', 'simple acceptance, guarded by the numerical doubt', {
    reason: `doubt: how far a finding moves at most, ${ways.join(', ')}; a pass within it is a condition, a fail within it stays a fail; ${scatter}`,
  });
}
