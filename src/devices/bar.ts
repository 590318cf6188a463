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
import type { Device } from './device.ts';
import { rungColumns } from './device.ts';

/** Time constant with which the current of an opening bar dies [s]. Assumed: a fast DC breaker's last part. */
export const openingTime_s = 20e-6;

/** Below this an open bar's current is exactly zero [A]: keeps subnormal numbers out of the kernel. */
const deadCurrent_A = 1e-9;

export interface BarColumns {
  readonly names: readonly string[];
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
}

export class Bars implements Device {
  readonly kind = 'bar';
  readonly states: readonly string[] = ['current_A'];
  readonly count: number;
  readonly names: readonly string[];
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
  /** 1 where the bar is open. */
  readonly open: Uint8Array;
  readonly offset: number;
  private readonly rungs: Float64Array[][] = [];
  private readonly past: Float64Array;

  constructor(columns: BarColumns, offset: number) {
    this.count = columns.names.length;
    this.names = columns.names;
    this.from = columns.from;
    this.to = columns.to;
    this.resistance_ohm = columns.resistance_ohm;
    this.inductance_H = columns.inductance_H;
    this.open = new Uint8Array(this.count);
    this.offset = offset;
    this.past = new Float64Array(this.count);
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, from, to, resistance_ohm, inductance_H, open } = this;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      dx[offset + k] = open[k]
        ? -i / openingTime_s
        : (v[from[k]!]! - v[to[k]!]! - resistance_ohm[k]! * i) / inductance_H[k]!;
    }
  }

  inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const i = x[this.offset + k]!;
      into[this.from[k]!]! -= i;
      into[this.to[k]!]! += i;
    }
  }

  /** i1 = keep (i0 + q di0) + admittance (v_from1 − v_to1); admittance = q/(L + q R), keep = L/(L + q R). */
  prepare(rung: number, q: number): void {
    const [admittance, keep] = rungColumns(this.rungs, rung, 2, this.count);
    for (let k = 0; k < this.count; k++) {
      const L = this.inductance_H[k]!;
      if (this.open[k]) {
        admittance![k] = 0;
        keep![k] = openingTime_s / (openingTime_s + q);
      } else {
        admittance![k] = q / (L + q * this.resistance_ohm[k]!);
        keep![k] = L / (L + q * this.resistance_ohm[k]!);
      }
    }
  }

  admittance(rung: number): Float64Array {
    return this.rungs[rung]![0]!;
  }

  begin(rhs: Float64Array, rung: number, q: number, x0: Float64Array, dx0: Float64Array): void {
    const { count, offset, from, to, past } = this;
    const keep = this.rungs[rung]![1]!;
    for (let k = 0; k < count; k++) {
      const i = keep[k]! * (x0[offset + k]! + q * dx0[offset + k]!);
      past[k] = i;
      rhs[from[k]!]! -= i;
      rhs[to[k]!]! += i;
    }
  }

  finish(x1: Float64Array, rung: number, v1: Float64Array): void {
    const { count, offset, from, to, past, open } = this;
    const admittance = this.rungs[rung]![0]!;
    for (let k = 0; k < count; k++) {
      const i = past[k]! + admittance[k]! * (v1[from[k]!]! - v1[to[k]!]!);
      x1[offset + k] = open[k] && i < deadCurrent_A && i > -deadCurrent_A ? 0 : i;
    }
  }
}
