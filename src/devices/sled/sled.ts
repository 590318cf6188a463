/**
 * Sleds: compute loads. Their contact is a bar and their input capacitors are capacitors; here stands the
 * converter behind them.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | P power drawn | W | | τ_p lag | s |
 * | | | | V_cc | V |
 *
 * Equations (input: demand P_d(t), straight between kinks; command: share of it that is allowed, 0 when cut off):
 *   dP/dt = (P_d(t) − P)/τ_p
 *   current drawn above V_cc: i = P ((1 − a)/v + a/V_n), the share a of the load drawn as constant current;
 *   below it resistive: i(V_cc) v/V_cc (a constant power there has no solution and a constant current would drive
 *   the node negative); a short at the sled draws G v beside it
 * Not modelled: the converter's own control, its losses (the demand is taken at the sled's input).
 */
import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Device } from '../device.ts';

export interface SledColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly power_lag_s: Float64Array;
  readonly constant_power_voltage_V: Float64Array;
  readonly share_ratio: Float64Array;
  /** Share a of the load that is drawn as constant current, and the voltage V_n at which it makes its power. */
  readonly constant_current_ratio: Float64Array;
  readonly nominal_V: Float64Array;
}

export class Sleds extends Device {
  readonly kind = 'sled';
  readonly states: readonly string[] = ['power_W'];
  readonly words: readonly string[] = ['power lag'];
  readonly node: Int32Array;
  readonly columns: SledColumns;
  /** Demand at the start and the end of the step [W]. */
  readonly demand0_W: Float64Array;
  readonly demand1_W: Float64Array;
  /** Command: share of the demand that is served. */
  readonly allowed: Float64Array;
  /** 1 where the sled hangs on the bus with its capacitors charged; set through `setPresent`. */
  readonly present: Uint8Array;
  /** How many are not there, and how often that has changed, for those who look on. */
  absent = 0;
  changes = 0;
  /** Conductance of a short at the sled [S]; set through `short`. */
  readonly short_S: Float64Array;
  /** Reciprocals of τ_p and V_cc. */
  private readonly perLag: Float64Array;
  private readonly perLowest_V: Float64Array;
  /** Of the power: what is drawn as constant power, and the rest over the voltage at which it makes its power [1/V]. */
  private readonly byPower: Float64Array;
  private readonly byCurrent_per_V: Float64Array;
  /** Slope of the drawn current that the matrix carries, P/v² at the settled start [S]; the rest is corrected. */
  readonly carried_S: Float64Array;

  constructor(columns: SledColumns, offset: number) {
    super(columns.names, offset);
    const n = columns.names.length;
    this.node = columns.node;
    this.columns = columns;
    this.demand0_W = new Float64Array(n);
    this.demand1_W = new Float64Array(n);
    this.allowed = new Float64Array(n).fill(1);
    this.present = new Uint8Array(n).fill(1);
    this.short_S = new Float64Array(n);
    this.carried_S = new Float64Array(n);
    this.perLag = columns.power_lag_s.map((T) => 1 / T);
    this.perLowest_V = columns.constant_power_voltage_V.map((v) => 1 / v);
    this.byPower = columns.constant_current_ratio.map((a) => 1 - a);
    this.byCurrent_per_V = columns.constant_current_ratio.map((a, k) => a / columns.nominal_V[k]!);
  }

  /** Demand at the end of the step: each sled's share of the power that its profile has there. */
  ask(profile_W: Float64Array, profileOf: Int32Array): void {
    const { count, demand1_W } = this;
    const { share_ratio } = this.columns;
    for (let k = 0; k < count; k++) demand1_W[k] = share_ratio[k]! * profile_W[profileOf[k]!]!;
  }

  /** Power that sled k draws at states x, a short at it left out [W]. */
  power_W(k: number, x: Float64Array): number {
    return x[this.offset + k]!;
  }

  /** Current drawn by sled k at power P and voltage v [A]. */
  drawn_A(k: Int, P: number, v: number): number {
    const Vcc = this.columns.constant_power_voltage_V[k]!;
    const at = v > Vcc ? v : Vcc;
    const i = P * (this.byPower[k]! / at + this.byCurrent_per_V[k]!);
    return (v > Vcc ? i : i * v * this.perLowest_V[k]!) + this.short_S[k]! * v;
  }

  /** How the current of sled k follows the voltage, di/dv at power P and voltage v [S]. */
  slope_S(k: number, P: number, v: number): number {
    const { constant_power_voltage_V, constant_current_ratio } = this.columns;
    const short = this.short_S[k]!;
    if (v <= constant_power_voltage_V[k]!) return (this.drawn_A(k, P, v) - short * v) / v + short;
    return (-(1 - constant_current_ratio[k]!) * P) / (v * v) + short;
  }

  /** Sled k leaves the bus or is back on it. One that is not there is neither guarded nor judged. */
  setPresent(k: number, present: boolean): void {
    if ((this.present[k] === 1) === present) return;
    this.present[k] = present ? 1 : 0;
    this.absent += present ? -1 : 1;
    this.changes++;
  }

  /** Shorts sled k with a conductance, 0 to end it; what was prepared with it is stale. */
  short(k: number, conductance_S: number): void {
    this.carried_S[k]! -= conductance_S - this.short_S[k]!;
    this.short_S[k] = conductance_S;
  }

  override flow(dx: Float64Array, x: Float64Array): void {
    const { count, offset, demand0_W, allowed, perLag } = this;
    for (let k = 0; k < count; k++) {
      dx[offset + k] = (demand0_W[k]! * allowed[k]! - x[offset + k]!) * perLag[k]!;
    }
  }

  override inject(into: Float64Array, x: Float64Array, v: Float64Array): void {
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      into[n]! -= this.drawn_A(k, x[this.offset + k]!, v[n]!);
    }
  }

  override balance(matrix: NodalMatrix, into: Float64Array, x: Float64Array, v: Float64Array): void {
    this.inject(into, x, v);
    for (let k = 0; k < this.count; k++) {
      const n = this.node[k]!;
      matrix.addToGround(n, this.slope_S(k, x[this.offset + k]!, v[n]!));
    }
  }

  /** Lets every sled draw the demand at the start of the step. */
  stand(x: Float64Array): void {
    for (let k = 0; k < this.count; k++) x[this.offset + k] = this.demand0_W[k]!;
  }

  /** Powers at rest are the demand; here is taken what slope the matrix carries. */
  override rest(x: Float64Array, v: Float64Array): void {
    const { count, offset, node, carried_S } = this;
    for (let k = 0; k < count; k++) carried_S[k] = -this.slope_S(k, x[offset + k]!, v[node[k]!]!);
  }
}
