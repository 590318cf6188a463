/**
 * Banks: capacitors straight on the bus, through their resistance and inductance.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | i current into the bus | A | | C, R (capacitors and connection) | F, Ω |
 * | u voltage of the capacitors | V | | L | H |
 *
 * Equations: L di/dt = u − v − R i; C du/dt = −i.
 * Not modelled: single strings and fuses, change of C and R with temperature and frequency.
 */
import type { Int } from '../../base/int.ts';
import type { Device } from '../device.ts';
import { BankRung } from './bank-rung.ts';

export interface BankColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  /** Capacitors and connection together. */
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
}

export class Banks implements Device {
  readonly kind = 'bank';
  readonly states: readonly string[] = ['current_A', 'voltage_V'];
  readonly count: Int;
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
  readonly offset: Int;
  /** Coefficients of each prepared rung. */
  readonly rungs: BankRung[] = [];
  readonly past: Float64Array;
  readonly pastVoltage: Float64Array;

  constructor(columns: BankColumns, offset: number) {
    this.count = columns.names.length;
    this.names = columns.names;
    this.node = columns.node;
    this.capacitance_F = columns.capacitance_F;
    this.resistance_ohm = columns.resistance_ohm;
    this.inductance_H = columns.inductance_H;
    this.offset = offset;
    this.past = new Float64Array(this.count);
    this.pastVoltage = new Float64Array(this.count);
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, capacitance_F, resistance_ohm, inductance_H } = this;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const u = x[offset + count + k]!;
      dx[offset + k] = (u - v[node[k]!]! - resistance_ohm[k]! * i) / inductance_H[k]!;
      dx[offset + count + k] = -i / capacitance_F[k]!;
    }
  }

  inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) into[this.node[k]!]! += x[this.offset + k]!;
  }

  rest(x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      x[this.offset + k] = 0;
      x[this.offset + this.count + k] = v[this.node[k]!]!;
    }
  }

  prepare(rung: number, q: number): void {
    this.rungs[rung] ??= new BankRung(this.count);
    const { admittance, keep } = this.rungs[rung];
    for (let k = 0; k < this.count; k++) {
      const L = this.inductance_H[k]!;
      const den = 1 + (q * this.resistance_ohm[k]!) / L + (q * q) / (L * this.capacitance_F[k]!);
      admittance[k] = q / L / den;
      keep[k] = 1 / den;
    }
  }

  begin(rhs: Float64Array, rung: BankRung, q: number, x0: Float64Array, dx0: Float64Array): void {
    const { count, offset, node, past, pastVoltage } = this;
    const { admittance, keep } = rung;
    for (let k = 0; k < count; k++) {
      const u = x0[offset + count + k]! + q * dx0[offset + count + k]!;
      const i = keep[k]! * (x0[offset + k]! + q * dx0[offset + k]!) + admittance[k]! * u;
      pastVoltage[k] = u;
      past[k] = i;
      rhs[node[k]!]! += i;
    }
  }

  finish(x1: Float64Array, rung: BankRung, q: number, v1: Float64Array): void {
    const { count, offset, node, past, pastVoltage, capacitance_F } = this;
    const { admittance } = rung;
    for (let k = 0; k < count; k++) {
      const i = past[k]! - admittance[k]! * v1[node[k]!]!;
      x1[offset + k] = i;
      x1[offset + count + k] = pastVoltage[k]! - (q * i) / capacitance_F[k]!;
    }
  }
}
