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
 * Beside the equations each kind says, in files of their own, how a step takes it (`companion.ts`), what it shows
 * (`readout.ts`) and where its energy goes (`books.ts`). Reference for the companion form: H. W. Dommel, IEEE Trans. Power
 * Apparatus and Systems PAS-88(4), 1969.
 */
import type { Int } from '../base/int.ts';
import type { NodalMatrix } from '../nodal/matrix.ts';

export abstract class Device {
  abstract readonly kind: string;
  /** Unit ids, in column order. */
  readonly names: readonly string[];
  readonly count: Int;
  readonly offset: Int;
  /** State names with units, for example `current_A`. */
  abstract readonly states: readonly string[];
  /** What each state is called where the owners of a mode are named, for example `bar current`. */
  abstract readonly words: readonly string[];

  constructor(names: readonly string[], offset: number) {
    this.names = names;
    this.count = names.length;
    this.offset = offset;
  }

  /** Where the state of unit k stands in the state vector, by its name. Throws RangeError for a name that it has not. */
  place(state: string, k: number): number {
    const s = this.states.indexOf(state);
    if (s < 0) throw new RangeError(`a ${this.kind} has no state ${state}`);
    return this.offset + s * this.count + k;
  }

  /**
   * Equations: writes the derivative of every state of the kind into dx [unit of state per second]. A kind that stands beside a
   * state of another comes after it and adds to that one's derivative.
   */
  abstract flow(dx: Float64Array, x: Float64Array, v: Float64Array): void;

  /** Adds the units' currents into the nodes [A]; none of a kind that stands behind another, or that only measures. */
  inject(_into: Float64Array, _x: Float64Array, _v: Float64Array): void {}

  /** Writes what other kinds' equations take from this one's states x: before any `flow` at the same x and v. */
  guide(_x: Float64Array, _v: Float64Array): void {}

  /**
   * At rest, with node voltages v: writes the currents that depend on them, adds them into the nodes and adds to the
   * matrix how they fall with v; nothing of a kind that carries no current at rest. The settled start repeats it until the
   * currents sum to zero.
   */
  balance(_matrix: NodalMatrix, _into: Float64Array, _x: Float64Array, _v: Float64Array): void {}

  /**
   * Writes what is at rest once the settled start has found the node voltages v and the currents that depend on them:
   * states, and what the step begins with. Kinds later in the state vector see what earlier ones have written.
   */
  rest(_x: Float64Array, _v: Float64Array): void {}
}
