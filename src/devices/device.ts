/**
 * The device contract. A kind holds all its units in columns and states one set of equations over them; the
 * stepper, the settled start and independent integrators use that set and no other.
 *
 * Signs: current is positive into the bus, power follows. A bar's current is positive from its `from` node
 * to its `to` node.
 *
 * State s of unit k stands at `offset + s * count + k` of the state vector x. Node voltages v are algebraic:
 * they make the currents into every node sum to zero.
 *
 * The step is the trapezoidal rule, x1 = x0 + q (flow(x0, v0) + flow(x1, v1)) with q half the step: its
 * companion form, solved for the unit's current, is linear in v1 and stands beside the equations in the same
 * file. Reference: H. W. Dommel, IEEE Trans. Power Apparatus and Systems PAS-88(4), 1969.
 */
import type { Int } from '../base/int.ts';

export interface Device {
  readonly kind: string;
  readonly count: Int;
  /** Unit ids, in column order. */
  readonly names: readonly string[];
  /** State names with units, for example `current_A`. */
  readonly states: readonly string[];
  readonly offset: Int;
  /** Equations: writes the derivative of every state of the kind into dx [unit of state per second]. */
  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void;
  /** Adds the units' currents into the nodes [A]. */
  inject(into: Float64Array, x: Float64Array, v: Float64Array): void;
  /**
   * Writes what is at rest once the settled start has found the node voltages v and the currents that depend on them:
   * states, and what the step begins with. Kinds later in the state vector see what earlier ones have written.
   */
  rest(x: Float64Array, v: Float64Array): void;
  /** Prepares the coefficients of a step of twice `q_s` under the number `rung`. */
  prepare(rung: number, q_s: number): void;
}
