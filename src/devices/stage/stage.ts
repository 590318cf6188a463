/**
 * Output stages: the DC side of rectifier shelves and of battery shelves. Droop, voltage loop, current lag.
 *
 * | state | unit | | parameter | unit |
 * |---|---|---|---|---|
 * | i output current | A | | K_p, K_i; T = K_p/K_i | A/V, A/(V s); s |
 * | x integrator | A | | R_d droop, τ_d its filter | Ω, s |
 * | i_f droop filter | A | | τ_i current lag, S_i slew limit | s, A/s |
 * | d1, d2 sensing delay | V | | t_dly sensing delay | s |
 *
 * Equations (command: set point V, trim u, limit I_lim, running or not):
 *   v_s = v − 2 d2, with dd1/dt = d2/a, dd2/dt = (a/b)(v − d1 − d2), a = t_dly/2, b = t_dly²/12:
 *         the second-order all-pass (1 − a s + b s²)/(1 + a s + b s²) for the delay
 *   e = V + u − R_d i_f − v_s          i* = K_p e + x
 *   lo = max(0, i − S_i τ_i)           hi = min(I_lim, i + S_i τ_i)
 *   i_sat = max(lo, min(i*, hi))       I_rest when the stage does not run
 *   di/dt = (i_sat − i)/τ_i            di_f/dt = (i − i_f)/τ_d
 *   dx/dt = K_i e + (i_sat − i*)/T, which is (i_sat − x)/T: clamped, the integrator does not see the bus
 * The slew limit stands inside the clamp so that anti-windup sees it. No reverse current while it runs (lo ≥ 0). I_rest
 * is 0, but for a stage that has failed with its blocking element shorted, or one that charges the pack
 * behind it: then it is the negative current it takes, folded back at low voltage (fold-back.ts).
 * K_i = 0 is droop by finite gain: the integrator stands still and 1/K_p adds to R_d at rest.
 * Not modelled: switching ripple, current unbalance between the modules of a shelf (those alive act as one).
 */

import type { Int } from '../../base/int.ts';
import { staticDroop_ohm } from '../../scenario/static-droop.ts';
import type { Device } from '../device.ts';
import { foldBack_ratio } from '../fold-back.ts';
import type { StageColumns } from './stage-columns.ts';
import { StageRung } from './stage-rung.ts';

/** Which branch of the clamp holds at the end of a step. */
export const stageMode = { linear: 0, slewUp: 1, limit: 2, slewDown: 3, zero: 4, off: 5 } as const;

/** Overshoot of a clamp that is still the same branch [A]: far below any current that matters. */
const modeSlack_A = 1e-9;

export class Stages implements Device {
  readonly kind = 'stage';
  readonly states: readonly string[] = [
    'current_A',
    'integrator_A',
    'droop_filter_A',
    'delay_1_V',
    'delay_2_V',
  ];
  readonly count: Int;
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly columns: StageColumns;
  readonly offset: Int;

  /** Commands, written by firmware between steps. */
  readonly setPoint_V: Float64Array;
  readonly trim_V: Float64Array;
  readonly running: Uint8Array;
  /** Current limit at the start and at the end of the step [A]. */
  readonly limit0_A: Float64Array;
  readonly limit1_A: Float64Array;
  /** Current of a stage that does not run, before it folds back [A]; 0 but for faults and charging. */
  readonly rest_A: Float64Array;
  /** What is left of it at the end of the step [A]. */
  readonly rest1_A: Float64Array;

  /** Branch of the clamp that held at the end of the last step. */
  readonly mode: Uint8Array;

  readonly span_A: Float64Array;
  readonly windup_s: Float64Array;
  /** Reciprocals of the time constants [1/s]; of half the delay, 0 where there is none. */
  readonly perWindup: Float64Array;
  readonly perLag: Float64Array;
  readonly perFilter: Float64Array;
  readonly perDelay: Float64Array;
  /** Coefficients of each prepared rung. */
  readonly rungs: StageRung[] = [];
  readonly iPast: Float64Array;
  readonly xPast: Float64Array;
  readonly fPast: Float64Array;
  readonly d1Past: Float64Array;
  readonly d2Past: Float64Array;
  readonly ePast: Float64Array;
  readonly iOut: Float64Array;

  constructor(columns: StageColumns, offset: number) {
    const n = columns.names.length;
    this.count = n;
    this.names = columns.names;
    this.node = columns.node;
    this.columns = columns;
    this.offset = offset;
    this.setPoint_V = new Float64Array(n);
    this.trim_V = new Float64Array(n);
    this.running = new Uint8Array(n);
    this.limit0_A = new Float64Array(n).fill(Number.MAX_VALUE);
    this.limit1_A = new Float64Array(n).fill(Number.MAX_VALUE);
    this.rest_A = new Float64Array(n);
    this.rest1_A = new Float64Array(n);
    this.mode = new Uint8Array(n);
    this.span_A = columns.slew_A_per_s.map((s, k) => s * columns.currentLag_s[k]!);
    this.windup_s = columns.proportional_A_per_V.map((p, k) => p / columns.integral_A_per_Vs[k]!);
    this.perWindup = this.windup_s.map((T) => 1 / T);
    this.perLag = columns.currentLag_s.map((T) => 1 / T);
    this.perFilter = columns.droopFilter_s.map((T) => 1 / T);
    this.perDelay = columns.delay_s.map((T) => (T > 0 ? 2 / T : 0));
    this.iPast = new Float64Array(n);
    this.xPast = new Float64Array(n);
    this.fPast = new Float64Array(n);
    this.d1Past = new Float64Array(n);
    this.d2Past = new Float64Array(n);
    this.ePast = new Float64Array(n);
    this.iOut = new Float64Array(n);
  }

  /** Slope of unit k's line at rest, volts lost per ampere [Ω]. */
  staticDroop_ohm(k: number): number {
    const c = this.columns;
    return staticDroop_ohm(c.droop_ohm[k]!, c.integral_A_per_Vs[k]!, c.proportional_A_per_V[k]!);
  }

  /**
   * Gives stage k this share of its rated size: gains, slew and rating shrink with the modules that are alive, its
   * droop grows. `whole`: the stage's columns when all its modules are. Prepared rungs are stale after it.
   */
  resize(k: number, share: number, whole: StageColumns): void {
    const c = this.columns;
    c.proportional_A_per_V[k] = share * whole.proportional_A_per_V[k]!;
    c.integral_A_per_Vs[k] = share * whole.integral_A_per_Vs[k]!;
    c.droop_ohm[k] = whole.droop_ohm[k]! / share;
    c.slew_A_per_s[k] = share * whole.slew_A_per_s[k]!;
    c.rated_A[k] = share * whole.rated_A[k]!;
    this.span_A[k] = c.slew_A_per_s[k]! * c.currentLag_s[k]!;
  }

  flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, setPoint_V, trim_V, running, limit0_A } = this;
    const { perWindup, perLag, perFilter, perDelay } = this;
    const { droop_ohm, proportional_A_per_V } = this.columns;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const integral = x[offset + count + k]!;
      const f = x[offset + 2 * count + k]!;
      const d1 = x[offset + 3 * count + k]!;
      const d2 = x[offset + 4 * count + k]!;
      const vk = v[node[k]!]!;
      const e = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f - (vk - 2 * d2);
      const wanted = proportional_A_per_V[k]! * e + integral;
      const saturated = running[k] === 1 ? this.clamp(k, wanted, i, limit0_A[k]!) : this.resting_A(k, vk);
      dx[offset + k] = (saturated - i) * perLag[k]!;
      dx[offset + count + k] = (saturated - integral) * perWindup[k]!;
      dx[offset + 2 * count + k] = (i - f) * perFilter[k]!;
      // a/b = 3/a: both rates are zero where there is no delay.
      dx[offset + 3 * count + k] = perDelay[k]! * d2;
      dx[offset + 4 * count + k] = 3 * perDelay[k]! * (vk - d1 - d2);
    }
  }

  inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) into[this.node[k]!]! += x[this.offset + k]!;
  }

  /** Everything but the current, which is found with the node voltages. */
  rest(x: Float64Array, v: Float64Array): void {
    const { count, offset, running, mode } = this;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const isRunning = running[k] === 1;
      const integrates = this.columns.integral_A_per_Vs[k]! > 0;
      x[offset + count + k] = isRunning && integrates ? i : 0;
      x[offset + 2 * count + k] = isRunning ? i : 0;
      x[offset + 3 * count + k] = v[this.node[k]!]!;
      x[offset + 4 * count + k] = 0;
      if (!isRunning) mode[k] = stageMode.off;
      else if (i <= 0) mode[k] = stageMode.zero;
      else mode[k] = i >= this.limit0_A[k]! ? stageMode.limit : stageMode.linear;
    }
  }

  /** Current that unit k goes to at bus voltage v while it does not run [A]. */
  private resting_A(k: Int, v: number): number {
    return this.rest_A[k]! * foldBack_ratio(this.columns.foldBack_V[k]!, v);
  }

  /** i_sat of unit k while it runs. */
  private clamp(k: Int, wanted: number, i: number, limit: number): number {
    const span = this.span_A[k]!;
    const lo: number = i > span ? i - span : 0;
    const hi = limit < i + span ? limit : i + span;
    const below = wanted < hi ? wanted : hi;
    return below > lo ? below : lo;
  }

  /** Branch of the clamp that `wanted` at current i falls into. */
  private branch(k: Int, wanted: number, i: number, limit: number): Int {
    if (this.running[k] === 0) return stageMode.off;
    const span = this.span_A[k]!;
    const lo: number = i > span ? i - span : 0;
    const hi = limit < i + span ? limit : i + span;
    if (hi < lo || wanted < lo - modeSlack_A) return i > span ? stageMode.slewDown : stageMode.zero;
    if (wanted > hi + modeSlack_A) return limit < i + span ? stageMode.limit : stageMode.slewUp;
    return stageMode.linear;
  }

  /**
   * With κ = q/τ_i, κ_d = q/τ_d, κ_x = q/T, K = K_p (1 + κ_x), ρ = R_d κ_d/(1 + κ_d):
   * linear     i1 = (i_p + κ (K E + x_p) − κ K g_v v1)/(1 + κ + κ K ρ)
   * slewing    i1 = i_p ± q S_i
   * limited    i1 = (i_p + κ I_lim)/(1 + κ)
   * zero, off  i1 = i_p/(1 + κ), for off with κ I_rest added to i_p
   * where i_p, x_p … are state plus q times derivative at the start, E the error without i1 and v1, and
   * v_s1 = h_v + g_v v1 the delayed voltage.
   */
  prepare(rung: number, q: number): void {
    this.rungs[rung] ??= new StageRung(this.count);
    const { kappa, kd, kx, rKappa, rKd, rKx, gain, den, dGain, dDen, g } = this.rungs[rung];
    const c = this.columns;
    for (let k = 0; k < this.count; k++) {
      const ka = q / c.currentLag_s[k]!;
      const kf = q / c.droopFilter_s[k]!;
      const ki = q / this.windup_s[k]!;
      const K = c.proportional_A_per_V[k]! * (1 + ki);
      kappa[k] = ka;
      kd[k] = kf;
      kx[k] = ki;
      gain[k] = K;
      den[k] = 1 / (1 + ka + (ka * K * c.droop_ohm[k]! * kf) / (1 + kf));
      const a = c.delay_s[k]! / 2;
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
      g[k] = ka * K * gv * den[k]!;
    }
  }

  /** Has a unit come to its linear branch, or left it, since the matrix was factored? */
  isStale(rung: StageRung): boolean {
    const { count, mode } = this;
    const { linear } = rung;
    for (let k = 0; k < count; k++) if ((linear[k] === 1) !== (mode[k] === stageMode.linear)) return true;
    return false;
  }

  /** Admittance of each unit in its present branch: zero unless linear. */
  admit(rung: StageRung): void {
    const { count, mode } = this;
    const { g, linear, admittance } = rung;
    for (let k = 0; k < count; k++) {
      const isLinear = mode[k] === stageMode.linear;
      linear[k] = isLinear ? 1 : 0;
      admittance[k] = isLinear ? g[k]! : 0;
    }
  }

  /** `guess`: node voltages expected at the end of the step, at which what rests folds back. */
  begin(rung: StageRung, q: number, x0: Float64Array, dx0: Float64Array, guess: Float64Array): void {
    const { count: n, offset: o, node, setPoint_V, trim_V, running, mode, rest1_A } = this;
    const { iPast, xPast, fPast, d1Past, d2Past, ePast } = this;
    const { droop_ohm } = this.columns;
    const { dDen, dGain, rKd } = rung;
    for (let k = 0; k < n; k++) {
      iPast[k] = x0[o + k]! + q * dx0[o + k]!;
      xPast[k] = x0[o + n + k]! + q * dx0[o + n + k]!;
      const f = x0[o + 2 * n + k]! + q * dx0[o + 2 * n + k]!;
      fPast[k] = f;
      const d1 = x0[o + 3 * n + k]! + q * dx0[o + 3 * n + k]!;
      const d2 = x0[o + 4 * n + k]! + q * dx0[o + 4 * n + k]!;
      d1Past[k] = d1;
      d2Past[k] = d2;
      const hv = -2 * (d2 - dGain[k]! * d1) * dDen[k]!;
      ePast[k] = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f * rKd[k]! - hv;
      if (running[k] === 0) {
        mode[k] = stageMode.off;
        rest1_A[k] = this.resting_A(k, guess[node[k]!]!);
      } else if (mode[k] === stageMode.off) mode[k] = stageMode.linear;
    }
  }

  /** Adds each unit's current at v1 = 0 in its present branch. */
  add(rhs: Float64Array, rung: StageRung, q: number): void {
    const { count, node, mode, iPast, xPast, ePast, limit1_A, rest1_A, iOut } = this;
    const { slew_A_per_s } = this.columns;
    const { kappa, gain, den, rKappa } = rung;
    for (let k = 0; k < count; k++) {
      let i: number;
      const ip = iPast[k]!;
      const ka = kappa[k]!;
      switch (mode[k]!) {
        case stageMode.linear:
          i = (ip + ka * (gain[k]! * ePast[k]! + xPast[k]!)) * den[k]!;
          break;
        case stageMode.slewUp:
          i = ip + q * slew_A_per_s[k]!;
          break;
        case stageMode.slewDown:
          i = ip - q * slew_A_per_s[k]!;
          break;
        case stageMode.limit:
          i = (ip + ka * limit1_A[k]!) * rKappa[k]!;
          break;
        case stageMode.zero:
          i = ip * rKappa[k]!;
          break;
        default:
          i = (ip + ka * rest1_A[k]!) * rKappa[k]!;
      }
      iOut[k] = i;
      rhs[node[k]!]! += i;
    }
  }

  /** Writes the states at v1 and corrects the branches; true when a branch changed and v1 must be solved again. */
  finish(x1: Float64Array, rung: StageRung, q: number, v1: Float64Array): boolean {
    const { count: n, offset: o, node, mode: modes, setPoint_V, trim_V, span_A, limit1_A, rest1_A } = this;
    const { xPast, fPast, d1Past, d2Past, iOut, perDelay } = this;
    const { droop_ohm, proportional_A_per_V } = this.columns;
    const { kd, kx, dDen, dGain, rKd, rKx, g } = rung;
    let changed = false;
    for (let k = 0; k < n; k++) {
      const v = v1[node[k]!]!;
      const mode = modes[k]!;
      const limit = limit1_A[k]!;
      let i = iOut[k]!;
      if (mode === stageMode.linear) i -= g[k]! * v;
      const f = (fPast[k]! + kd[k]! * i) * rKd[k]!;
      const d2 = (d2Past[k]! + dGain[k]! * (v - d1Past[k]!)) * dDen[k]!;
      const e = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f - (v - 2 * d2);
      const Kp = proportional_A_per_V[k]!;
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
                  : rest1_A[k]!;
        x = (xPast[k]! + kx[k]! * saturated) * rKx[k]!;
      }
      const next = this.branch(k, Kp * e + x, i, limit);
      if (next !== mode) {
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
