import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { CorrectedCompanion } from '../corrected-companion.ts';
import type { Ends } from '../ends.ts';
import { type Stages, stageMode } from './stage.ts';

/** Overshoot of a clamp that is still the same branch [A]: far below any current that matters. */
const modeSlack_A = 1e-9;

/**
 * With κ = q/τ_i, κ_d = q/τ_d, κ_x = q/T, K = K_p (1 + κ_x), ρ = R_d κ_d/(1 + κ_d):
 * linear     i1 = (i_p + κ (K E + x_p) − κ K g_v v1)/(1 + κ + κ K ρ)
 * slewing    i1 = i_p ± q S_i
 * limited    i1 = (i_p + κ I_lim)/(1 + κ)
 * zero, off  i1 = i_p/(1 + κ), for off with κ I_rest added to i_p; commanded like off, with κ i_c
 * where i_p, x_p … are state plus p times derivative at the start, E the error without i1 and v1, and
 * v_s1 = h_v + g_v v1 the delayed voltage. A unit has an admittance in its linear branch alone.
 */
export class StageCompanion extends CorrectedCompanion {
  private readonly stages: Stages;
  /** Place of the first unit's current at v1 = 0. */
  private readonly at: Int;
  /** κ, κ_d, κ_x and 1/(1 + κ) of each; K; 1/(1 + κ + κ K ρ); coefficients of the sensing delay. */
  private readonly kappa: Float64Array;
  private readonly kd: Float64Array;
  private readonly kx: Float64Array;
  private readonly rKappa: Float64Array;
  private readonly rKd: Float64Array;
  private readonly rKx: Float64Array;
  private readonly gain: Float64Array;
  private readonly den: Float64Array;
  private readonly dGain: Float64Array;
  private readonly dDen: Float64Array;
  /** Conductance while linear [S]. */
  private readonly g_S: Float64Array;
  /** What the matrix was last given: admittances, and which units were linear. */
  private readonly admitted_S: Float64Array;
  private readonly linear: Uint8Array;
  /** States plus p times their derivatives at the start, the error without i1 and v1. */
  private readonly iPast: Float64Array;
  private readonly xPast: Float64Array;
  private readonly fPast: Float64Array;
  private readonly d1Past: Float64Array;
  private readonly d2Past: Float64Array;
  private readonly ePast: Float64Array;

  constructor(stages: Stages, at: Int) {
    super();
    const column = (): Float64Array => new Float64Array(stages.count);
    this.stages = stages;
    this.at = at;
    this.kappa = column();
    this.kd = column();
    this.kx = column();
    this.rKappa = column();
    this.rKd = column();
    this.rKx = column();
    this.gain = column();
    this.den = column();
    this.dGain = column();
    this.dDen = column();
    this.g_S = column();
    this.admitted_S = column();
    this.linear = new Uint8Array(stages.count);
    this.iPast = column();
    this.xPast = column();
    this.fPast = column();
    this.d1Past = column();
    this.d2Past = column();
    this.ePast = column();
  }

  override prepare(q: number): void {
    const { kappa, kd, kx, rKappa, rKd, rKx, gain, den, dGain, dDen, g_S } = this;
    const { columns: c, windup_s, filter_s, delay_s, count } = this.stages;
    for (let k = 0; k < count; k++) {
      const ka = q / c.current_lag_s[k]!;
      const kf = q / filter_s[k]!;
      const ki = q / windup_s[k]!;
      const K = c.proportional_gain_A_per_V[k]! * (1 + ki);
      kappa[k] = ka;
      kd[k] = kf;
      kx[k] = ki;
      gain[k] = K;
      den[k] = 1 / (1 + ka + (ka * K * c.droop_ohm[k]! * kf) / (1 + kf));
      const a = delay_s[k]! / 2;
      if (a > 0) {
        const b = (a * a) / 3;
        dGain[k] = (q * a) / b;
        dDen[k] = 1 / (1 + (q * a) / b + (q * q) / b);
      } else {
        dGain[k] = 0;
        dDen[k] = 1;
      }
      const gv = 1 - 2 * dGain[k]! * dDen[k]!;
      rKappa[k] = 1 / (1 + ka);
      rKd[k] = 1 / (1 + kf);
      rKx[k] = 1 / (1 + ki);
      g_S[k] = ka * K * gv * den[k]!;
    }
  }

  /** What rests folds back at the expected voltage; what is commanded holds. */
  override begin(ends: Ends, p: number, _q: number): void {
    this.stages.flow(ends.dx0, ends.x0, ends.v0);
    const { stages } = this;
    const { count: n, offset: o, node, setPoint_V, trim_V, running, mode, command_A, goal1_A } = stages;
    const { x0, dx0, expected } = ends;
    const { iPast, xPast, fPast, d1Past, d2Past, ePast } = this;
    const { droop_ohm } = stages.columns;
    const { dDen, dGain, rKd } = this;
    for (let k = 0; k < n; k++) {
      iPast[k] = x0[o + k]! + p * dx0[o + k]!;
      xPast[k] = x0[o + n + k]! + p * dx0[o + n + k]!;
      const f = x0[o + 2 * n + k]! + p * dx0[o + 2 * n + k]!;
      fPast[k] = f;
      const d1 = x0[o + 3 * n + k]! + p * dx0[o + 3 * n + k]!;
      const d2 = x0[o + 4 * n + k]! + p * dx0[o + 4 * n + k]!;
      d1Past[k] = d1;
      d2Past[k] = d2;
      const hv = -2 * (d2 - dGain[k]! * d1) * dDen[k]!;
      ePast[k] = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f * rKd[k]! - hv;
      if (running[k] === 0) {
        mode[k] = stageMode.off;
        goal1_A[k] = stages.resting_A(k, expected[node[k]!]!);
      } else {
        goal1_A[k] = command_A[k]!;
        if (mode[k] === stageMode.off) mode[k] = stageMode.linear;
      }
    }
  }

  /** Has a unit come to its linear branch, or left it, since the matrix was factored? */
  override isStale(): boolean {
    const { count } = this.stages;
    const { linear } = this;
    for (let k = 0; k < count; k++) if ((linear[k] === 1) !== (this.way(k) === stageMode.linear)) return true;
    return false;
  }

  override admit(matrix: NodalMatrix): void {
    const { count, node } = this.stages;
    const { g_S, linear, admitted_S } = this;
    for (let k = 0; k < count; k++) {
      const isLinear = this.way(k) === stageMode.linear;
      linear[k] = isLinear ? 1 : 0;
      admitted_S[k] = isLinear ? g_S[k]! : 0;
    }
    matrix.admit(node, admitted_S, count);
  }

  /** Each unit's current at v1 = 0 in its present branch. */
  override add(ends: Ends, q: number, _damped: boolean): void {
    const { count, limit1_A, goal1_A } = this.stages;
    const { current_A } = ends;
    const { at, iPast, xPast, ePast } = this;
    const { slew_limit_A_per_s } = this.stages.columns;
    const { kappa, gain, den, rKappa } = this;
    for (let k = 0; k < count; k++) {
      let i: number;
      const ip = iPast[k]!;
      const ka = kappa[k]!;
      switch (this.way(k)) {
        case stageMode.linear:
          i = (ip + ka * (gain[k]! * ePast[k]! + xPast[k]!)) * den[k]!;
          break;
        case stageMode.slewUp:
          i = ip + q * slew_limit_A_per_s[k]!;
          break;
        case stageMode.slewDown:
          i = ip - q * slew_limit_A_per_s[k]!;
          break;
        case stageMode.limit:
          i = (ip + ka * limit1_A[k]!) * rKappa[k]!;
          break;
        case stageMode.zero:
          i = ip * rKappa[k]!;
          break;
        default:
          i = (ip + ka * goal1_A[k]!) * rKappa[k]!;
      }
      current_A[at + k] = i;
    }
  }

  /** How unit k goes through the step: in its branch, or like one that is off to where it is commanded. */
  private way(k: Int): Int {
    const { mode } = this.stages;
    const { isCommanded } = this.stages.columns;
    return isCommanded[k] === 1 ? stageMode.off : mode[k]!;
  }

  /** Branch of the clamp that `wanted` at current i falls into. */
  private branch(k: Int, wanted: number, i: number, limit: number): Int {
    const { running, span_A } = this.stages;
    if (running[k] === 0) return stageMode.off;
    const span = span_A[k]!;
    const lo: number = i > span ? i - span : 0;
    const hi = limit < i + span ? limit : i + span;
    if (hi < lo || wanted < lo - modeSlack_A) return i > span ? stageMode.slewDown : stageMode.zero;
    if (wanted > hi + modeSlack_A) return limit < i + span ? stageMode.limit : stageMode.slewUp;
    return stageMode.linear;
  }

  /** Writes the states at v1 and corrects the branches. */
  override isOff(ends: Ends, q: number): boolean {
    const { stages } = this;
    const { count: n, offset: o, node, mode: modes, setPoint_V, trim_V, span_A, limit1_A, goal1_A } = stages;
    const { x1, v1, current_A } = ends;
    const { at, xPast, fPast, d1Past, d2Past } = this;
    const { perDelay } = stages;
    const { droop_ohm, proportional_gain_A_per_V, isCommanded } = stages.columns;
    const { kd, kx, dDen, dGain, rKd, rKx, g_S } = this;
    let changed = false;
    for (let k = 0; k < n; k++) {
      const v = v1[node[k]!]!;
      const mode = this.way(k);
      const limit = limit1_A[k]!;
      let i = current_A[at + k]!;
      if (mode === stageMode.linear) i -= g_S[k]! * v;
      const f = (fPast[k]! + kd[k]! * i) * rKd[k]!;
      const d2 = (d2Past[k]! + dGain[k]! * (v - d1Past[k]!)) * dDen[k]!;
      const e = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f - (v - 2 * d2);
      const Kp = proportional_gain_A_per_V[k]!;
      let x: number;
      if (mode === stageMode.linear) {
        x = xPast[k]! + kx[k]! * Kp * e;
      } else {
        const span = span_A[k]!;
        const saturated: number =
          mode === stageMode.slewUp
            ? i + span
            : mode === stageMode.slewDown
              ? i - span
              : mode === stageMode.limit
                ? limit
                : mode === stageMode.zero
                  ? 0
                  : goal1_A[k]!;
        x = (xPast[k]! + kx[k]! * saturated) * rKx[k]!;
      }
      const next = this.branch(k, Kp * e + x, i, limit);
      if (isCommanded[k] === 0 && next !== mode) {
        modes[k] = next;
        changed = true;
      }
      x1[o + k] = i;
      x1[o + n + k] = x;
      x1[o + 2 * n + k] = f;
      x1[o + 3 * n + k] = perDelay[k]! > 0 ? d1Past[k]! + q * perDelay[k]! * d2 : v;
      x1[o + 4 * n + k] = d2;
    }
    return changed;
  }
}
