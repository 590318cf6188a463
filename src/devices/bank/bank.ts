/**
 * Banks: capacitors straight on the bus, through their resistance and inductance.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | i current into the bus | A | | C, R (capacitors and connection) | F, Ω |
 * | u voltage of the capacitors | V | | L | H |
 *
 * Equations: L di/dt = u − v − R i; C du/dt = −i.
 * A share of C may stand in a slow branch of its own (`branch/branch.ts`), whose current C then gains.
 * Not modelled: single strings and fuses, change of C and R with temperature, of R with frequency.
 */
import { Device } from '../device.ts';

export interface BankColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  /** Capacitors and connection together. */
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;
}

export class Banks extends Device {
  readonly kind = 'bank';
  readonly states: readonly string[] = ['current_A', 'voltage_V'];
  readonly words: readonly string[] = ['bank current', 'bank voltage'];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly resistance_ohm: Float64Array;
  readonly inductance_H: Float64Array;

  constructor(columns: BankColumns, offset: number) {
    super(columns.names, offset);
    this.node = columns.node;
    this.capacitance_F = columns.capacitance_F;
    this.resistance_ohm = columns.resistance_ohm;
    this.inductance_H = columns.inductance_H;
  }

  /** Energy in bank k at states x: its capacitors and its inductance [J]. */
  energy_J(k: number, x: Float64Array): number {
    const i = x[this.offset + k]!;
    const u = x[this.offset + this.count + k]!;
    return (this.capacitance_F[k]! * u * u + this.inductance_H[k]! * i * i) / 2;
  }

  /** Slope of the current of bank k on a node at 0 V [A/s]; each volt there takes 1/L from it. */
  rise_A_per_s(k: number, x: Float64Array): number {
    const i = x[this.offset + k]!;
    const u = x[this.offset + this.count + k]!;
    return (u - this.resistance_ohm[k]! * i) / this.inductance_H[k]!;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, capacitance_F, resistance_ohm, inductance_H } = this;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const u = x[offset + count + k]!;
      dx[offset + k] = (u - v[node[k]!]! - resistance_ohm[k]! * i) / inductance_H[k]!;
      dx[offset + count + k] = -i / capacitance_F[k]!;
    }
  }

  override inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) into[this.node[k]!]! += x[this.offset + k]!;
  }

  override rest(x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      x[this.offset + k] = 0;
      x[this.offset + this.count + k] = v[this.node[k]!]!;
    }
  }
}
