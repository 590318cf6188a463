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
import type { Device } from './device.ts';
import { rungColumns } from './device.ts';

export interface CapacitorColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
}

export class Capacitors implements Device {
  readonly kind = 'capacitor';
  readonly states: readonly string[] = ['voltage_V'];
  readonly count: number;
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
  readonly offset: number;
  private readonly rungs: Float64Array[][] = [];
  private readonly past: Float64Array;

  constructor(columns: CapacitorColumns, offset: number) {
    this.count = columns.names.length;
    this.names = columns.names;
    this.node = columns.node;
    this.capacitance_F = columns.capacitance_F;
    this.esr_ohm = columns.esr_ohm;
    this.offset = offset;
    this.past = new Float64Array(this.count);
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, capacitance_F, esr_ohm } = this;
    for (let k = 0; k < count; k++) {
      dx[offset + k] = (v[node[k]!]! - x[offset + k]!) / (esr_ohm[k]! * capacitance_F[k]!);
    }
  }

  inject(into: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      into[n]! += (x[this.offset + k]! - v[n]!) / this.esr_ohm[k]!;
    }
  }

  /** Current into the bus = admittance (u0 + q du0 − v1), admittance = C/(r C + q); u1 = share (u0 + q du0) + (1 − share) v1. */
  prepare(rung: number, q: number): void {
    const [admittance, share] = rungColumns(this.rungs, rung, 2, this.count);
    for (let k = 0; k < this.count; k++) {
      const C = this.capacitance_F[k]!;
      const rC = this.esr_ohm[k]! * C;
      admittance![k] = C / (rC + q);
      share![k] = rC / (rC + q);
    }
  }

  admittance(rung: number): Float64Array {
    return this.rungs[rung]![0]!;
  }

  begin(rhs: Float64Array, rung: number, q: number, x0: Float64Array, dx0: Float64Array): void {
    const { count, offset, node, past } = this;
    const admittance = this.rungs[rung]![0]!;
    for (let k = 0; k < count; k++) {
      const u = x0[offset + k]! + q * dx0[offset + k]!;
      past[k] = u;
      rhs[node[k]!]! += admittance[k]! * u;
    }
  }

  finish(x1: Float64Array, rung: number, v1: Float64Array): void {
    const { count, offset, node, past } = this;
    const share = this.rungs[rung]![1]!;
    for (let k = 0; k < count; k++) {
      const v = v1[node[k]!]!;
      x1[offset + k] = v + share[k]! * (past[k]! - v);
    }
  }
}
