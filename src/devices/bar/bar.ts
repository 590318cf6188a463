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
import type { Int } from '../../base/int.ts';
import type { Device } from '../device.ts';
import { BarRung } from './bar-rung.ts';

/** Time constant with which the current of an opening bar dies [s]. Assumed: the last part of a fast DC breaker. */
export const openingTime_s = 100e-6;

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
  readonly count: Int;
  readonly names: readonly string[];
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
  /** 1 where the bar is open. Set through `setOpen`. */
  readonly open: Uint8Array;
  readonly offset: Int;
  /** di/dt = drive (v_from − v_to) − decay i: 1/L and R/L of a closed bar, 0 and 1/τ_open of an open one. */
  readonly drive_per_H: Float64Array;
  readonly decay_per_s: Float64Array;
  /** Coefficients of each prepared rung. */
  readonly rungs: BarRung[] = [];
  readonly past: Float64Array;

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
    this.drive_per_H = new Float64Array(this.count);
    this.decay_per_s = new Float64Array(this.count);
    for (let k = 0; k < this.count; k++) this.setOpen(k, false);
  }

  /** Opens or closes bar k; prepared rungs are stale after it. */
  setOpen(k: number, open: boolean): void {
    this.open[k] = open ? 1 : 0;
    this.drive_per_H[k] = open ? 0 : 1 / this.inductance_H[k]!;
    this.decay_per_s[k] = open ? 1 / openingTime_s : this.resistance_ohm[k]! / this.inductance_H[k]!;
  }

  /** Sets the resistance of bar k; prepared rungs are stale after it. */
  setResistance(k: number, resistance_ohm: number): void {
    this.resistance_ohm[k] = resistance_ohm;
    this.setOpen(k, this.open[k] === 1);
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, from, to, drive_per_H, decay_per_s } = this;
    for (let k = 0; k < count; k++) {
      const across = v[from[k]!]! - v[to[k]!]!;
      dx[offset + k] = drive_per_H[k]! * across - decay_per_s[k]! * x[offset + k]!;
    }
  }

  inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const i = x[this.offset + k]!;
      into[this.from[k]!]! -= i;
      into[this.to[k]!]! += i;
    }
  }

  /** Currents at rest are found with the node voltages. */
  rest(): void {}

  prepare(rung: number, q: number): void {
    this.rungs[rung] ??= new BarRung(this.count);
    const { admittance, keep } = this.rungs[rung];
    for (let k = 0; k < this.count; k++) {
      keep[k] = 1 / (1 + q * this.decay_per_s[k]!);
      admittance[k] = q * this.drive_per_H[k]! * keep[k]!;
    }
  }

  /** Takes the derivative at the start and adds what the bars bring into the nodes at v1 = 0. */
  begin(rhs: Float64Array, rung: BarRung, q: number, x0: Float64Array, v0: Float64Array): void {
    const { count, offset, from, to, past, drive_per_H, decay_per_s } = this;
    const { keep } = rung;
    for (let k = 0; k < count; k++) {
      const a = from[k]!;
      const b = to[k]!;
      const i0 = x0[offset + k]!;
      const i = keep[k]! * (i0 + q * (drive_per_H[k]! * (v0[a]! - v0[b]!) - decay_per_s[k]! * i0));
      past[k] = i;
      rhs[a]! -= i;
      rhs[b]! += i;
    }
  }

  finish(x1: Float64Array, rung: BarRung, v1: Float64Array): void {
    const { count, offset, from, to, past, open } = this;
    const { admittance } = rung;
    for (let k = 0; k < count; k++) {
      let i = past[k]! + admittance[k]! * (v1[from[k]!]! - v1[to[k]!]!);
      if (open[k] === 1 && Math.abs(i) < deadCurrent_A) i = 0;
      x1[offset + k] = i;
    }
  }
}
