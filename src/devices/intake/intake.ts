/**
 * Intakes: the AC side of rectifier shelves. Bulk capacitor, slow power loop, walk-in, three-phase current.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | v_b bulk voltage | V | | C_b bulk, V_b reference | F, V |
 * | x_b integrator | W | | ω_b loop bandwidth | rad/s |
 * | p power into the bulk | W | | τ_pfc lag, P_max limit | s, W |
 * | r walk-in ramp | W | | T_walk | s |
 *
 * Equations:
 *   p* = K_pb (V_b − v_b) + x_b,   K_pb = ω_b C_b V_b,   T_b = 4/ω_b
 *   p_sat = clamp(p*, 0, min(P_max(V_ac), r));  0 while AC is gone
 *   dx_b/dt = K_ib (V_b − v_b) + (p_sat − p*)/T_b = (p_sat − x_b)/T_b, as K_ib = K_pb/T_b
 *   dp/dt = (p_sat − p)/τ_pfc      C_b v_b dv_b/dt = p m − p_dc      dr/dt = P_max/T_walk while walking in
 *   p_dc = v i + a + b i + c i², v i not below 0      P_ac = p m + a' + b' p + c' p²    I_line = P_ac/(√3 V_LL PF)
 * m: pulsation of single-phase modules, 1 unless it is looked at (line-ripple.ts).
 * Not modelled: the bulks of the modules one by one, the boost inductor's current loop.
 */

import type { Int } from '../../base/int.ts';
import { Device } from '../device.ts';
import type { Stages } from '../stage/stage.ts';
import type { IntakeColumns } from './intake-columns.ts';
import type { LineRipple } from './line-ripple.ts';
import type { LoadCurve } from './load-curve.ts';

export class Intakes extends Device {
  readonly kind = 'intake';
  readonly states: readonly string[] = ['bulk_V', 'integrator_W', 'power_W', 'walk_in_W'];
  readonly words: readonly string[] = ['bulk voltage', 'power integrator', 'input power', 'walk-in ramp'];
  readonly columns: IntakeColumns;
  /** PF against load. */
  readonly powerFactor: LoadCurve;
  /** Commands: AC at the terminals; walk-in running. */
  readonly present: Uint8Array;
  readonly walking: Uint8Array;
  /** Most power into the bulk with the line as it is [W]. */
  readonly ceiling_W: Float64Array;
  /** Commands: the same [W] and √3 V_LL PF [V], before a line that gives way takes its part of them. */
  readonly granted_W: Float64Array;
  readonly nominalLine_V: Float64Array;
  /** That part: V/V_n of the shelf's feeder where it gives way (supply.ts); 1 where it is stiff. */
  readonly lineRatio: Float64Array;
  /** DC power drawn from the bulk at the start and the end of the step [W]. */
  readonly dc0_W: Float64Array;
  readonly dc1_W: Float64Array;
  /** How the power pulses with the line. */
  readonly ripple: LineRipple;
  /** Intake k feeds stage k. */
  readonly stages: Stages;
  readonly gain_W_per_V: Float64Array;
  readonly windup_s: Float64Array;
  readonly perWindup: Float64Array;
  readonly perLag: Float64Array;
  /** Of the fold-back with the bulk: 1/(0.9 V_b − V_min). */
  private readonly perFold_V: Float64Array;

  /** Intake k feeds stage k: shelves come first among the stages. */
  constructor(
    columns: IntakeColumns,
    powerFactor: LoadCurve,
    ripple: LineRipple,
    stages: Stages,
    offset: number,
  ) {
    super(columns.names, offset);
    const n = columns.names.length;
    this.columns = columns;
    this.powerFactor = powerFactor;
    this.ripple = ripple;
    this.stages = stages;
    this.present = new Uint8Array(n).fill(1);
    this.walking = new Uint8Array(n);
    this.ceiling_W = columns.limit_W.slice();
    this.granted_W = columns.limit_W.slice();
    this.nominalLine_V = columns.lineVoltage_V.slice();
    this.lineRatio = new Float64Array(n).fill(1);
    this.dc0_W = new Float64Array(n);
    this.dc1_W = new Float64Array(n);
    this.gain_W_per_V = columns.bandwidth_rad_per_s.map(
      (w, k) => w * columns.bulk_F[k]! * columns.bulk_voltage_V[k]!,
    );
    this.windup_s = columns.bandwidth_rad_per_s.map((w) => 4 / w);
    this.perWindup = this.windup_s.map((T) => 1 / T);
    this.perFold_V = columns.bulk_voltage_V.map((V, k) => 1 / (0.9 * V - columns.bulk_voltage_min_V[k]!));
    this.perLag = columns.power_lag_s.map((T) => 1 / T);
  }

  /**
   * Gives intake k this share of its rated size: bulk, gain, limits and losses shrink with the modules that are
   * alive. `whole`: the columns when all of them are. What was prepared with it is stale; the most from the line
   * (`ceiling_W`) and the output limits are the firmware's to set anew.
   */
  resize(k: number, share: number, whole: IntakeColumns): void {
    const c = this.columns;
    c.bulk_F[k] = share * whole.bulk_F[k]!;
    c.limit_W[k] = share * whole.limit_W[k]!;
    c.walkIn_W_per_s[k] = share * whole.walkIn_W_per_s[k]!;
    c.dc_loss_fixed_W[k] = share * whole.dc_loss_fixed_W[k]!;
    c.dc_loss_square_ohm[k] = whole.dc_loss_square_ohm[k]! / share;
    c.ac_loss_fixed_W[k] = share * whole.ac_loss_fixed_W[k]!;
    c.ac_loss_square_per_W[k] = whole.ac_loss_square_per_W[k]! / share;
    this.gain_W_per_V[k] = c.bandwidth_rad_per_s[k]! * c.bulk_F[k]! * c.bulk_voltage_V[k]!;
  }

  /** The line gives intake k this share of its nominal voltage: no more power than in proportion, and current by it. */
  give(k: Int, ratio: number): void {
    this.lineRatio[k] = ratio;
    this.ceiling_W[k] = this.granted_W[k]! * (ratio < 1 ? ratio : 1);
    this.columns.lineVoltage_V[k] = this.nominalLine_V[k]! * ratio;
  }

  /**
   * Power that stage k draws from the bulk at bus voltage v and current i [W]; nothing when it stands still. On a bus
   * that rings below 0 V the current freewheels: the power is the stage's loss and does not come back to the bulk.
   */
  drawn_W(k: Int, v: number, i: number): number {
    const c = this.columns;
    if (this.stages.running[k] === 0 && i < 1e-6) return 0;
    return (
      (v > 0 ? v : 0) * i +
      c.dc_loss_fixed_W[k]! +
      (c.dc_loss_linear_V[k]! + c.dc_loss_square_ohm[k]! * i) * i
    );
  }

  /** Power into the bulk of intake k at states x [W]. */
  power_W(k: number, x: Float64Array): number {
    return x[this.offset + 2 * this.count + k]!;
  }

  /** Loss of the AC stage at power p into the bulk [W]; nothing while AC is gone. */
  acLoss_W(k: Int, p: number): number {
    const c = this.columns;
    if (this.present[k] === 0) return 0;
    return c.ac_loss_fixed_W[k]! + (c.ac_loss_linear_ratio[k]! + c.ac_loss_square_per_W[k]! * p) * p;
  }

  /** AC power P of intake k over the rated power of what is alive of it. */
  load(k: Int, P: number): number {
    const { power_limit_ratio, limit_W } = this.columns;
    return (P * power_limit_ratio[k]!) / limit_W[k]!;
  }

  /** RMS line current per phase of intake k at AC power P [A]. */
  line_A(k: Int, P: number): number {
    const { columns, powerFactor } = this;
    const current = P / columns.lineVoltage_V[k]!;
    if (powerFactor.isFlat === 1) return current;
    return (current * powerFactor.at(k, 1)) / powerFactor.at(k, this.load(k, P));
  }

  /** Ceiling of the power into the bulk [W]. */
  ceiling(k: Int, r: number): number {
    if (this.present[k] === 0) return 0;
    const limit = this.ceiling_W[k]!;
    return r < limit ? r : limit;
  }

  /** Whether the power loop of intake k asks at states x for less than nothing or more than it may take. */
  isClamped(k: number, x: Float64Array): boolean {
    const { count: n, offset: o, columns: c } = this;
    const asked_W = this.gain_W_per_V[k]! * (c.bulk_voltage_V[k]! - x[o + k]!) + x[o + n + k]!;
    return asked_W < 0 || asked_W > this.ceiling(k, x[o + 3 * n + k]!);
  }

  /**
   * Current limit of stage k [A]: the sustained limit or that of power, folded back with the bulk while AC is
   * present, and during walk-in no more than the ramp lets in: I_lim = min(min(I_cc, P_dc/v) fold, 0.95 r/v).
   */
  stageLimit_A(k: Int, bulk_V: number, r_W: number, v: number): number {
    const c = this.columns;
    const most = c.currentLimit_A[k]!;
    const per_V = 1 / (v > 1 ? v : 1);
    const byPower = c.outputLimit_W[k]! * per_V;
    const limit = byPower < most ? byPower : most;
    if (this.present[k] === 0) return limit;
    const fold = (bulk_V - c.bulk_voltage_min_V[k]!) * this.perFold_V[k]!;
    const part: number = fold < 1 ? fold : 1;
    const folded = limit * (part > 0 ? part : 0);
    if (r_W >= c.limit_W[k]!) return folded;
    const walk = c.walk_in_margin_ratio[k]! * r_W * per_V;
    return walk < folded ? walk : folded;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count: n, offset: o, columns: c, stages, dc0_W, gain_W_per_V, perWindup, perLag, walking } = this;
    const { node, offset: oStage } = stages;
    const { bulk_voltage_V, bulk_F, limit_W, walkIn_W_per_s } = c;
    const m = this.ripple.start;
    for (let k = 0; k < n; k++) {
      const bulk = x[o + k]!;
      const integral = x[o + n + k]!;
      const p = x[o + 2 * n + k]!;
      const r = x[o + 3 * n + k]!;
      const drawn = this.drawn_W(k, v[node[k]!]!, x[oStage + k]!);
      dc0_W[k] = drawn;
      const wanted = gain_W_per_V[k]! * (bulk_voltage_V[k]! - bulk) + integral;
      const ceiling = this.ceiling(k, r);
      const saturated: number = wanted < 0 ? 0 : wanted > ceiling ? ceiling : wanted;
      dx[o + k] = (p * m[k]! - drawn) / (bulk_F[k]! * bulk);
      dx[o + n + k] = (saturated - integral) * perWindup[k]!;
      dx[o + 2 * n + k] = (saturated - p) * perLag[k]!;
      dx[o + 3 * n + k] = walking[k] === 1 && r < limit_W[k]! ? walkIn_W_per_s[k]! : 0;
    }
  }

  /** Current limits of the stages. */
  override guide(x: Float64Array, v: Float64Array): void {
    const { count: n, offset: o, stages } = this;
    const { node, limit0_A } = stages;
    for (let k = 0; k < n; k++) {
      limit0_A[k] = this.stageLimit_A(k, x[o + k]!, x[o + 3 * n + k]!, v[node[k]!]!);
    }
  }

  /** The bulk charged, the ramp at its end, and from the line what the stage draws. */
  override rest(x: Float64Array, v: Float64Array): void {
    const { count, offset, stages, columns } = this;
    for (let k = 0; k < count; k++) {
      const drawn = this.drawn_W(k, v[stages.node[k]!]!, x[stages.offset + k]!);
      x[offset + k] = columns.bulk_voltage_V[k]!;
      x[offset + count + k] = drawn;
      x[offset + 2 * count + k] = drawn;
      x[offset + 3 * count + k] = columns.limit_W[k]!;
    }
  }
}
