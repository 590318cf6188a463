/**
 * Trays: the power stage of a supercapacitor bank behind a bidirectional converter.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | p power asked of the converter | W | | τ_t lag, S_p slew | s, W/s |
 * | v_c capacitor voltage | V | | C_0, k_v, V_r; R; i_leak | F, –, V; Ω; A |
 *
 * Equations (command: p_cmd):
 *   dp/dt = clamp((p_cmd − p)/τ_t, ±S_p)
 *   i = p/v held within ±I(v)                      I(v) = I_bus min(1, v/V_fold), 0 below 0 V (fold-back.ts)
 *   p_bus = i v                                    what reaches the bus: p, unless the current limit holds
 *   P_cap = p_bus/η + p_0 (p_bus > 0), p_bus η + p_0 (p_bus ≤ 0)
 *   i_c = (v_c − √(v_c² − 4 R P_cap))/(2 R)        no root: infeasible, i_c = v_c/(2 R), the most there is
 *   C(v_c) dv_c/dt = −i_c − i_leak                 C(v) = (1 − s) C_0 (1 + k_v (v/V_r − 1))
 * The share s of C_0, 0 unless it is stated, stands beside it in a slow branch of its own (`branch/branch.ts`).
 * The converter's own limit on its current holds at every instant, whatever the power asked for: a constant power
 * would need endless current into a bus that a short pulls to 0 V.
 * Not modelled here: temperature within a run, cell imbalance, switching ripple.
 */
import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Device } from '../device.ts';
import { foldedBack_A } from '../fold-back.ts';
import type { TrayColumns } from './tray-columns.ts';
import { bankEnergy_J, type TrayRatings } from './tray-ratings.ts';

export class Trays extends Device {
  readonly kind = 'tray';
  readonly states: readonly string[] = ['power_W', 'capacitor_V'];
  readonly words: readonly string[] = ['power lag', 'capacitor voltage'];
  readonly node: Int32Array;
  readonly columns: TrayColumns;
  /** Commands: bus power [W]; converter alive (a tray that is out has no standing loss and no power). */
  readonly command_W: Float64Array;
  readonly alive: Uint8Array;
  /** What firmware computes from too. */
  readonly ratings: TrayRatings;
  /** Distance from its command beyond which a tray's power slews, S_p τ_t [W]. */
  private readonly span_W: Float64Array;
  /** Reciprocals of what never changes: τ_t, η, 2 R, V_fold. */
  readonly perLag: Float64Array;
  private readonly perEfficiency: Float64Array;
  private readonly perTwiceEsr: Float64Array;
  readonly perFoldBack_V: Float64Array;
  /** C(v) = base + rise v: (1 − s) C_0 (1 − k_v) and (1 − s) C_0 k_v/V_r. */
  readonly base_F: Float64Array;
  readonly rise_F_per_V: Float64Array;

  constructor(columns: TrayColumns, offset: number) {
    super(columns.names, offset);
    const n = columns.names.length;
    this.node = columns.node;
    this.columns = columns;
    this.command_W = new Float64Array(n);
    this.alive = new Uint8Array(n).fill(1);
    this.span_W = columns.power_slew_W_per_s.map((S, k) => S * columns.power_lag_s[k]!);
    this.perLag = columns.power_lag_s.map((T) => 1 / T);
    this.perEfficiency = columns.efficiency_ratio.map((eta) => 1 / eta);
    this.perTwiceEsr = columns.esr_ohm.map((R) => 1 / (2 * R));
    this.perFoldBack_V = columns.foldBack_V.map((v) => 1 / v);
    this.base_F = columns.fast_F.map((C, k) => C * (1 - columns.voltage_slope_ratio[k]!));
    this.rise_F_per_V = columns.fast_F.map(
      (C, k) => (C * columns.voltage_slope_ratio[k]!) / columns.rated_voltage_V[k]!,
    );
    const lowest_J = columns.voltage_low_V.map((u, k) => this.energy_J(k, u));
    const window_J = columns.voltage_high_V.map((u, k) => this.energy_J(k, u) - lowest_J[k]!);
    this.ratings = { columns, lowest_J, window_J, perFoldBack_V: this.perFoldBack_V };
  }

  /** Most current that tray k carries in either direction at bus voltage v [A]. */
  mostCurrent_A(k: Int, v: number): number {
    return foldedBack_A(this.columns.bus_current_limit_A[k]!, this.perFoldBack_V[k]!, v);
  }

  /** Current of tray k into the bus at power p and bus voltage v [A]. */
  busCurrent_A(k: Int, p: number, v: number): number {
    const most = this.mostCurrent_A(k, v);
    if (p < most * v && -p < most * v) return p / v;
    return p > 0 ? most : -most;
  }

  /** Whether the converter's own limit holds the current of tray k at power p and bus voltage v. */
  isAtCurrentLimit(k: number, p: number, v: number): boolean {
    return Math.abs(p) >= this.mostCurrent_A(k, v) * v;
  }

  /** Power of tray k that reaches the bus [W]: p, or what its current limit leaves of it at bus voltage v. */
  delivered_W(k: Int, p: number, v: number): number {
    const most = this.mostCurrent_A(k, v) * v;
    return p > most ? most : p < -most ? -most : p;
  }

  /** How the current of tray k falls with the bus voltage, −di/dv at power p and voltage v [S]. */
  slope_S(k: number, p: number, v: number): number {
    const most = this.mostCurrent_A(k, v);
    if (p < most * v && -p < most * v) return p / (v * v);
    const folds = v > 0 && v < this.columns.foldBack_V[k]!;
    return folds ? ((p > 0 ? -1 : 1) * most) / v : 0;
  }

  /** Power taken from the capacitor terminals for bus power p [W]. */
  capacitorPower_W(k: Int, p: number): number {
    const c = this.columns;
    const standing = this.alive[k] === 1 ? c.standing_loss_W[k]! : 0;
    return p * (p > 0 ? this.perEfficiency[k]! : c.efficiency_ratio[k]!) + standing;
  }

  /** Capacitor current for bus power p at capacitor voltage u [A], positive when discharging. */
  capacitorCurrent_A(k: Int, p: number, u: number): number {
    const R = this.columns.esr_ohm[k]!;
    const root = u * u - 4 * R * this.capacitorPower_W(k, p);
    return (u - Math.sqrt(root > 0 ? root : 0)) * this.perTwiceEsr[k]!;
  }

  /** No operating point: more is asked than the bank can give, v_c² < 4 R P_cap. */
  isInfeasible(k: Int, p: number, u: number): boolean {
    return u * u < 4 * this.columns.esr_ohm[k]! * this.capacitorPower_W(k, p);
  }

  /** Does power p move towards the command as fast as it can? */
  isSlewing(k: Int, p: number): boolean {
    const gap_W = this.command_W[k]! - p;
    const span_W = this.span_W[k]!;
    return gap_W > span_W || gap_W < -span_W;
  }

  /** Energy of the whole bank at rest at voltage u, as its firmware counts it [J]. */
  energy_J(k: Int, u: number): number {
    const c = this.columns;
    return bankEnergy_J(c.capacitance_F[k]!, c.voltage_slope_ratio[k]!, c.rated_voltage_V[k]!, u);
  }

  /** Energy in the capacitance that is there at once, at voltage u [J]. */
  fastEnergy_J(k: number, u: number): number {
    const c = this.columns;
    return bankEnergy_J(c.fast_F[k]!, c.voltage_slope_ratio[k]!, c.rated_voltage_V[k]!, u);
  }

  /** Power asked of tray k's converter at states x, before its current limit [W]. */
  power_W(k: Int, x: Float64Array): number {
    return x[this.offset + k]!;
  }

  /** Capacitor voltage of tray k at states x [V], and set to another. */
  voltage_V(k: number, x: Float64Array): number {
    return x[this.offset + this.count + k]!;
  }

  charge(x: Float64Array, k: number, u: number): void {
    x[this.offset + this.count + k] = u;
  }

  /** Share of the energy between both ends of the voltage window. */
  charge_ratio(k: Int, u: number): number {
    const { lowest_J, window_J } = this.ratings;
    return (this.energy_J(k, u) - lowest_J[k]!) / window_J[k]!;
  }

  /** How the capacitor voltage moves while bus power p is given at voltage u [V/s]. */
  slope_V_per_s(k: Int, p: number, u: number): number {
    const taken_A = this.capacitorCurrent_A(k, p, u) + this.columns.leakage_A[k]!;
    return -taken_A / (this.base_F[k]! + this.rise_F_per_V[k]! * u);
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count: n, offset: o, node, command_W, perLag } = this;
    const { power_slew_W_per_s } = this.columns;
    for (let k = 0; k < n; k++) {
      const p = x[o + k]!;
      const S = power_slew_W_per_s[k]!;
      const rate = (command_W[k]! - p) * perLag[k]!;
      dx[o + k] = rate > S ? S : rate < -S ? -S : rate;
      dx[o + n + k] = this.slope_V_per_s(k, this.delivered_W(k, p, v[node[k]!]!), x[o + n + k]!);
    }
  }

  override inject(into: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      into[n]! += this.busCurrent_A(k, x[this.offset + k]!, v[n]!);
    }
  }

  override balance(matrix: NodalMatrix, into: Float64Array, x: Float64Array, v: Float64Array): void {
    this.inject(into, x, v);
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      matrix.addToGround(n, this.slope_S(k, x[this.offset + k]!, v[n]!));
    }
  }

  /** Lets tray k stand at power p, asked of it too, and capacitor voltage u. */
  stand(x: Float64Array, k: number, p: number, u: number): void {
    x[this.offset + k] = p;
    x[this.offset + this.count + k] = u;
    this.command_W[k] = p;
  }
}
