/**
 * Slow branches: the second branch of a capacitor bank, a resistance and a capacitance in series, beside the capacitance of
 * a tray or of a bank and behind its series resistance. What lies deep in the pores, or in the dielectric, comes and goes
 * through it: at 1 Hz the bank holds less than a slow discharge shows (two-branch model of electrochemical capacitors, textbook).
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | u_s voltage of the slow capacitance | V | | C_s, G_s = 1/R_s; R_s C_s = τ_s | F, S; s |
 *
 * Equations, u and C(u) of the capacitance beside it: i_s = G_s (u_s − u), C_s du_s/dt = −i_s, and C(u) du/dt gains i_s.
 * Not modelled: further branches, change of C_s with voltage, the heat that R_s leaves in the cells.
 */
import type { Int } from '../../base/int.ts';
import { Device } from '../device.ts';

export interface BranchColumns {
  readonly names: readonly string[];
  /** Beside which unit of its kind, and where the voltage of that one's capacitance stands among the states. */
  readonly host: Int32Array;
  readonly beside: Int32Array;
  /** Columns of that kind: C(u) = base + rise u. */
  readonly base_F: Float64Array;
  readonly rise_F_per_V: Float64Array;
  readonly capacitance_F: Float64Array;
  readonly conductance_S: Float64Array;
}

export class Branches extends Device {
  readonly kind = 'branch';
  readonly states: readonly string[] = ['voltage_V'];
  readonly words: readonly string[] = ['slow branch'];
  readonly columns: BranchColumns;

  constructor(columns: BranchColumns, offset: number) {
    super(columns.names, offset);
    this.columns = columns;
  }

  /** Capacitance at voltage u of what branch k stands beside [F]. */
  hostCapacitance_F(k: Int, u: number): number {
    const { host, base_F, rise_F_per_V } = this.columns;
    const unit = host[k]!;
    return base_F[unit]! + rise_F_per_V[unit]! * u;
  }

  /** Energy in branch k at states x [J]. */
  energy_J(k: number, x: Float64Array): number {
    const u = x[this.offset + k]!;
    return (this.columns.capacitance_F[k]! * u * u) / 2;
  }

  /** After the kind that it stands beside: adds to the slope of that one's capacitance. */
  override flow(dx: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { count, offset, columns } = this;
    const { beside, capacitance_F, conductance_S } = columns;
    for (let k = 0; k < count; k++) {
      const at = beside[k]!;
      const u = x[at]!;
      const i = conductance_S[k]! * (x[offset + k]! - u);
      dx[offset + k] = -i / capacitance_F[k]!;
      dx[at]! += i / this.hostCapacitance_F(k, u);
    }
  }

  /** At the voltage beside it, which is there already. */
  override rest(x: Float64Array, _v: Float64Array): void {
    for (let k = 0; k < this.count; k++) x[this.offset + k] = x[this.columns.beside[k]!]!;
  }
}
