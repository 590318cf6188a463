/**
 * Capacitors on a node through their resistance: output capacitors of shelves, trays and battery shelves,
 * both input capacitors of every sled, the shunts of the rack bar.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | u voltage behind the resistance | V | | C, r | F, Ω |
 *
 * Equations: C du/dt = (v − u)/r; current into the bus (u − v)/r.
 * Not modelled: change of C with voltage and temperature, dielectric absorption.
 */
import type { Int } from '../../base/int.ts';
import type { Device } from '../device.ts';
import { CapacitorRung } from './capacitor-rung.ts';

export interface CapacitorColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
}

export class Capacitors implements Device {
  readonly kind = 'capacitor';
  readonly states: readonly string[] = ['voltage_V'];
  readonly count: Int;
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
  readonly offset: Int;
  /** 1/(r C) [1/s]. */
  readonly rate_per_s: Float64Array;
  /** Coefficients of each prepared rung. */
  readonly rungs: CapacitorRung[] = [];
  readonly past: Float64Array;

  constructor(columns: CapacitorColumns, offset: number) {
    this.count = columns.names.length;
    this.names = columns.names;
    this.node = columns.node;
    this.capacitance_F = columns.capacitance_F;
    this.esr_ohm = columns.esr_ohm;
    this.offset = offset;
    this.rate_per_s = this.esr_ohm.map((r, k) => 1 / (r * this.capacitance_F[k]!));
    this.past = new Float64Array(this.count);
  }

  /** Energy stored in capacitor k at states x [J]. */
  energy_J(k: number, x: Float64Array): number {
    const u = x[this.offset + k]!;
    return (this.capacitance_F[k]! * u * u) / 2;
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, rate_per_s } = this;
    for (let k = 0; k < count; k++) {
      dx[offset + k] = (v[node[k]!]! - x[offset + k]!) * rate_per_s[k]!;
    }
  }

  inject(into: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      into[n]! += (x[this.offset + k]! - v[n]!) / this.esr_ohm[k]!;
    }
  }

  rest(x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) x[this.offset + k] = v[this.node[k]!]!;
  }

  prepare(rung: number, q: number): void {
    this.rungs[rung] ??= new CapacitorRung(this.count);
    const { admittance, share } = this.rungs[rung];
    for (let k = 0; k < this.count; k++) {
      const C = this.capacitance_F[k]!;
      const rC = this.esr_ohm[k]! * C;
      admittance[k] = C / (rC + q);
      share[k] = rC / (rC + q);
    }
  }

  /** Takes the derivative at the start and adds what the capacitors bring into the nodes at v1 = 0. */
  begin(rhs: Float64Array, rung: CapacitorRung, q: number, x0: Float64Array, v0: Float64Array): void {
    const { count, offset, node, past, rate_per_s } = this;
    const { admittance } = rung;
    for (let k = 0; k < count; k++) {
      const n = node[k]!;
      const u0 = x0[offset + k]!;
      const u = u0 + q * rate_per_s[k]! * (v0[n]! - u0);
      past[k] = u;
      rhs[n]! += admittance[k]! * u;
    }
  }

  finish(x1: Float64Array, rung: CapacitorRung, v1: Float64Array): void {
    const { count, offset, node, past } = this;
    const { share } = rung;
    for (let k = 0; k < count; k++) {
      const v = v1[node[k]!]!;
      x1[offset + k] = v + share[k]! * (past[k]! - v);
    }
  }
}
