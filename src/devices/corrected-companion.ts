/**
 * A companion whose current is not linear in the node voltages: clamps with branches, constant powers. Each solve takes it
 * as it stands in its branch, or straight about the expected voltages, and is repeated while it was off.
 */
import type { NodalMatrix } from '../nodal/matrix.ts';
import { Companion } from './companion.ts';
import type { Ends } from './ends.ts';

/** Current that a unit may be off by after a step [A]: some ten microvolts at its node. */
export const currentTolerance_A = 5e-3;

export abstract class CorrectedCompanion extends Companion {
  /** Whether the factored matrix no longer holds what `admit` would give it. */
  isStale(): boolean {
    return false;
  }

  /** Conductances that come and go with the branch that a unit is in [S]. */
  admit(_matrix: NodalMatrix): void {}

  /** Currents at the expected voltages. `damped`: the mean of them and of those of the solve before, which still stand. */
  abstract add(ends: Ends, q_s: number, damped: boolean): void;

  /** After a solve: units that must be solved again, for their branch has changed or their current is off. */
  abstract isOff(ends: Ends, q_s: number): boolean;
}
