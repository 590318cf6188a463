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
import { Device } from '../device.ts';

export interface CapacitorColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
}

export class Capacitors extends Device {
  readonly kind = 'capacitor';
  readonly states: readonly string[] = ['voltage_V'];
  readonly words: readonly string[] = ['capacitor'];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly esr_ohm: Float64Array;
  /** 1/(r C) [1/s]. */
  readonly rate_per_s: Float64Array;

  constructor(columns: CapacitorColumns, offset: number) {
    super(columns.names, offset);
    this.node = columns.node;
    this.capacitance_F = columns.capacitance_F;
    this.esr_ohm = columns.esr_ohm;
    this.rate_per_s = this.esr_ohm.map((r, k) => 1 / (r * this.capacitance_F[k]!));
  }

  /** Energy stored in capacitor k at states x [J]. */
  energy_J(k: number, x: Float64Array): number {
    const u = x[this.offset + k]!;
    return (this.capacitance_F[k]! * u * u) / 2;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, rate_per_s } = this;
    for (let k = 0; k < count; k++) {
      dx[offset + k] = (v[node[k]!]! - x[offset + k]!) * rate_per_s[k]!;
    }
  }

  override inject(into: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      into[n]! += (x[this.offset + k]! - v[n]!) / this.esr_ohm[k]!;
    }
  }

  override rest(x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) x[this.offset + k] = v[this.node[k]!]!;
  }
}
