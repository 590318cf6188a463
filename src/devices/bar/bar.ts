/**
 * Bars: segments, link bars, the tie, sled contacts. One R-L branch between two nodes.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | i current from → to | A | | R loop resistance, L loop inductance | Ω, H |
 *
 * Equation: L di/dt = v_from − v_to − R i. An open bar lets its current die: di/dt = −i / τ_open; the arc's
 * drop is what the nodes impose, its energy is a loss.
 * Not modelled: heating of the bar (see the slow pass), skin effect, mutual coupling between bars, the arc.
 */
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Device } from '../device.ts';

/** Time constant with which the current of an opening bar dies [s]. Assumed: the last part of a fast DC breaker. */
export const openingTime_s = 100e-6;

export interface BarColumns {
  readonly names: readonly string[];
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
}

export class Bars extends Device {
  readonly kind = 'bar';
  readonly states: readonly string[] = ['current_A'];
  readonly words: readonly string[] = ['bar current'];
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
  /** 1 where the bar is open. Set through `setOpen`. */
  readonly open: Uint8Array;
  /** di/dt = drive (v_from − v_to) − decay i: 1/L and R/L of a closed bar, 0 and 1/τ_open of an open one. */
  readonly drive_per_H: Float64Array;
  readonly decay_per_s: Float64Array;

  constructor(columns: BarColumns, offset: number) {
    super(columns.names, offset);
    this.from = columns.from;
    this.to = columns.to;
    this.resistance_ohm = columns.resistance_ohm;
    this.inductance_H = columns.inductance_H;
    this.open = new Uint8Array(this.count);
    this.drive_per_H = new Float64Array(this.count);
    this.decay_per_s = new Float64Array(this.count);
    for (let k = 0; k < this.count; k++) this.setOpen(k, false);
  }

  /** Opens or closes bar k; what was prepared with it is stale. */
  setOpen(k: number, open: boolean): void {
    this.open[k] = open ? 1 : 0;
    this.drive_per_H[k] = open ? 0 : 1 / this.inductance_H[k]!;
    this.decay_per_s[k] = open ? 1 / openingTime_s : this.resistance_ohm[k]! / this.inductance_H[k]!;
  }

  /** Sets the resistance of bar k; what was prepared with it is stale. */
  setResistance(k: number, resistance_ohm: number): void {
    this.resistance_ohm[k] = resistance_ohm;
    this.setOpen(k, this.open[k] === 1);
  }

  /** Current of bar k at states x [A]. */
  current_A(k: number, x: Float64Array): number {
    return x[this.offset + k]!;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, from, to, drive_per_H, decay_per_s } = this;
    for (let k = 0; k < count; k++) {
      const across = v[from[k]!]! - v[to[k]!]!;
      dx[offset + k] = drive_per_H[k]! * across - decay_per_s[k]! * x[offset + k]!;
    }
  }

  override inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const i = x[this.offset + k]!;
      into[this.from[k]!]! -= i;
      into[this.to[k]!]! += i;
    }
  }

  /** A bar at rest is its resistance. */
  override balance(matrix: NodalMatrix, into: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, from, to, open, resistance_ohm } = this;
    for (let k = 0; k < count; k++) {
      const across = v[from[k]!]! - v[to[k]!]!;
      x[offset + k] = open[k] ? 0 : across / resistance_ohm[k]!;
      if (!open[k]) matrix.addBetween(from[k]!, to[k]!, 1 / resistance_ohm[k]!);
    }
    this.inject(into, x);
  }
}
