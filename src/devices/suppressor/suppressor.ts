/**
 * Suppressors: diodes across the input of a sled that conduct above their breakdown voltage and so hold down what a load
 * dump or an opening bar leaves on the bus.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | E heat that stands in it | J | | V_br breakdown voltage, R_d its dynamic resistance | V, Ω |
 * | | | | τ_c cooling, E_r rated energy | s, J |
 *
 * Equations: i = (v − V_br)/R_d above V_br, 0 below; current into the bus −i
 *   dE/dt = v i − E/τ_c
 * Not modelled: leakage below breakdown, the rise of V_br with temperature, failure beyond the rated energy (it shows).
 */
import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Device } from '../device.ts';

export interface SuppressorColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly suppressor_voltage_V: Float64Array;
  readonly suppressor_resistance_ohm: Float64Array;
  readonly suppressor_cooling_s: Float64Array;
  readonly suppressor_energy_J: Float64Array;
}

export class Suppressors extends Device {
  readonly kind = 'suppressor';
  readonly states: readonly string[] = ['heat_J'];
  readonly words: readonly string[] = ['suppressor heat'];
  readonly columns: SuppressorColumns;
  /** 1 where it conducted at the end of the last solve. */
  readonly conducts: Uint8Array;

  constructor(columns: SuppressorColumns, offset: number) {
    super(columns.names, offset);
    this.columns = columns;
    this.conducts = new Uint8Array(this.count);
  }

  /** Current that suppressor k takes at node voltage v [A]. */
  taken_A(k: Int, v: number): number {
    const { suppressor_voltage_V, suppressor_resistance_ohm } = this.columns;
    const above = v - suppressor_voltage_V[k]!;
    return above > 0 ? above / suppressor_resistance_ohm[k]! : 0;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset } = this;
    const { node, suppressor_cooling_s } = this.columns;
    for (let k = 0; k < count; k++) {
      const at = v[node[k]!]!;
      dx[offset + k] = at * this.taken_A(k, at) - x[offset + k]! / suppressor_cooling_s[k]!;
    }
  }

  override inject(into: Float64Array, _x: Float64Array, v: Float64Array): void {
    const { node } = this.columns;
    for (let k = 0; k < this.count; k++) into[node[k]!]! -= this.taken_A(k, v[node[k]!]!);
  }

  override balance(matrix: NodalMatrix, into: Float64Array, x: Float64Array, v: Float64Array): void {
    const { node, suppressor_resistance_ohm } = this.columns;
    this.inject(into, x, v);
    for (let k = 0; k < this.count; k++) {
      if (this.taken_A(k, v[node[k]!]!) > 0) matrix.addToGround(node[k]!, 1 / suppressor_resistance_ohm[k]!);
    }
  }

  /** Its heat where it has come to rest. */
  override rest(x: Float64Array, v: Float64Array): void {
    const { node, suppressor_cooling_s } = this.columns;
    for (let k = 0; k < this.count; k++) {
      const at = v[node[k]!]!;
      const i = this.taken_A(k, at);
      x[this.offset + k] = at * i * suppressor_cooling_s[k]!;
      this.conducts[k] = i > 0 ? 1 : 0;
    }
  }
}
