/**
 * A kind in steps whose end has one weight: x1 = x0 + p flow(x0, v0) + q flow(x1, v1), with p + q the step, solved for the
 * current of each unit, which is linear in v1. That is the trapezoidal rule with p = q, backward Euler with p = 0. What makes
 * a conductance and a current of every element (Dommel 1969) stands here; the equations themselves stand once, in the
 * kind's `flow`. Coefficients and conductances depend on q alone.
 *
 * The methods are the turns of a step, in this order. Each kind takes the turns that it has, in the order of
 * `network/kinds.ts`: one that gives another its limits comes before it.
 */
import type { NodalMatrix } from '../nodal/matrix.ts';
import type { Ends } from './ends.ts';

export abstract class Companion {
  /** Coefficients for steps whose end weighs `q_s`: for a new weight, and after a parameter has changed. */
  abstract prepare(q_s: number): void;

  /** Conductances that stay as long as the coefficients do [S]. */
  stamp(_matrix: NodalMatrix): void {}

  /**
   * Derivatives at the start, with the commands that hold from there on, and what does not follow the end's voltages:
   * currents, states whose end these do not move.
   */
  abstract begin(ends: Ends, p_s: number, q_s: number): void;

  /** The rest of the end's states, once its voltages stand. Kinds may look at the ends of those before them. */
  finish(_ends: Ends, _p_s: number, _q_s: number): void {}
}
