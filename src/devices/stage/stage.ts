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
 * A stage whose loop is firmware (isCommanded) has none of its own: di/dt = (i_c − i)/τ_i with the current i_c that it is
 * commanded; x, i_f, d1 and d2 stand still, and what clamps it is what its firmware says.
 * K_i = 0 is droop by finite gain: the integrator stands still and 1/K_p adds to R_d at rest.
 * Not modelled: switching ripple, current unbalance between the modules of a shelf (those alive act as one).
 */

import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { staticDroop_ohm } from '../../scenario/static-droop.ts';
import { Device } from '../device.ts';
import { foldBack_ratio } from '../fold-back.ts';
import type { StageColumns } from './stage-columns.ts';

/** Which branch of the clamp holds at the end of a step. */
export const stageMode = { linear: 0, slewUp: 1, limit: 2, slewDown: 3, zero: 4, off: 5 } as const;

export class Stages extends Device {
  readonly kind = 'stage';
  readonly states: readonly string[] = [
    'current_A',
    'integrator_A',
    'droop_filter_A',
    'delay_1_V',
    'delay_2_V',
  ];
  readonly words: readonly string[] = [
    'current lag',
    'voltage integrator',
    'droop filter',
    // Both states of the all-pass are one delay.
    'sensing delay',
    'sensing delay',
  ];
  readonly node: Int32Array;
  readonly columns: StageColumns;

  /** Commands, written by firmware between steps. */
  readonly setPoint_V: Float64Array;
  readonly trim_V: Float64Array;
  readonly running: Uint8Array;
  /** Current limit at the start and at the end of the step [A]. */
  readonly limit0_A: Float64Array;
  readonly limit1_A: Float64Array;
  /** Current of a stage that does not run, before it folds back [A]; 0 but for faults and charging. */
  readonly rest_A: Float64Array;
  /** Current that firmware commands a running stage to, where it closes the loop [A]. */
  readonly command_A: Float64Array;
  /** Where the current of a stage goes that does not run or is commanded, at the end of the step [A]. */
  readonly goal1_A: Float64Array;

  /** Branch of the clamp that held at the end of the last step; of a commanded stage, in its firmware's last run. */
  readonly mode: Uint8Array;

  readonly span_A: Float64Array;
  /** Time constants of the stage's own loop [s]: without end where firmware closes it. */
  readonly windup_s: Float64Array;
  readonly filter_s: Float64Array;
  /** Sensing delay of its own loop [s]. */
  readonly delay_s: Float64Array;
  /** Reciprocals of the time constants [1/s]; of half the delay, 0 where there is none. */
  readonly perWindup: Float64Array;
  readonly perLag: Float64Array;
  readonly perFilter: Float64Array;
  readonly perDelay: Float64Array;
  /** 1/V_fold. */
  private readonly perFoldBack_V: Float64Array;

  constructor(columns: StageColumns, offset: number) {
    super(columns.names, offset);
    const n = columns.names.length;
    this.node = columns.node;
    this.columns = columns;
    this.setPoint_V = new Float64Array(n);
    this.trim_V = new Float64Array(n);
    this.running = new Uint8Array(n);
    this.limit0_A = new Float64Array(n).fill(Number.MAX_VALUE);
    this.limit1_A = new Float64Array(n).fill(Number.MAX_VALUE);
    this.rest_A = new Float64Array(n);
    this.command_A = new Float64Array(n);
    this.goal1_A = new Float64Array(n);
    this.mode = new Uint8Array(n);
    this.span_A = columns.slew_limit_A_per_s.map((s, k) => s * columns.current_lag_s[k]!);
    const { isCommanded } = columns;
    const own = (k: number, time_s: number, without_s: number): number =>
      isCommanded[k] ? without_s : time_s;
    this.windup_s = columns.proportional_gain_A_per_V.map((p, k) =>
      own(k, p / columns.integral_gain_A_per_Vs[k]!, Number.POSITIVE_INFINITY),
    );
    this.filter_s = columns.droop_filter_time_s.map((T, k) => own(k, T, Number.POSITIVE_INFINITY));
    this.delay_s = columns.control_delay_s.map((T, k) => own(k, T, 0));
    this.perWindup = this.windup_s.map((T) => 1 / T);
    this.perLag = columns.current_lag_s.map((T) => 1 / T);
    this.perFilter = this.filter_s.map((T) => 1 / T);
    this.perFoldBack_V = columns.foldBack_V.map((v) => 1 / v);
    this.perDelay = this.delay_s.map((T) => (T > 0 ? 2 / T : 0));
  }

  /** Output current of unit k at states x [A], and over its rating. */
  current_A(k: Int, x: Float64Array): number {
    return x[this.offset + k]!;
  }

  perUnit(k: Int, x: Float64Array): number {
    return this.current_A(k, x) / this.columns.rated_A[k]!;
  }

  /** Power of the units from `first` up to `end` into the bus, at states x and node voltages v [W]. */
  given_W(first: Int, end: Int, x: Float64Array, v: Float64Array): number {
    const { offset, node } = this;
    let sum = 0;
    for (let k = first; k < end; k++) sum += v[node[k]!]! * x[offset + k]!;
    return sum;
  }

  /** Slope of unit k's line at rest, volts lost per ampere [Ω]. */
  staticDroop_ohm(k: number): number {
    const c = this.columns;
    return staticDroop_ohm(c.droop_ohm[k]!, c.integral_gain_A_per_Vs[k]!, c.proportional_gain_A_per_V[k]!);
  }

  /**
   * Gives stage k this share of its rated size: gains, slew and rating shrink with the modules that are alive, its
   * droop grows. `whole`: the stage's columns when all its modules are. What was prepared with it is stale.
   */
  resize(k: number, share: number, whole: StageColumns): void {
    const c = this.columns;
    c.proportional_gain_A_per_V[k] = share * whole.proportional_gain_A_per_V[k]!;
    c.integral_gain_A_per_Vs[k] = share * whole.integral_gain_A_per_Vs[k]!;
    c.droop_ohm[k] = whole.droop_ohm[k]! / share;
    c.slew_limit_A_per_s[k] = share * whole.slew_limit_A_per_s[k]!;
    c.rated_A[k] = share * whole.rated_A[k]!;
    this.span_A[k] = c.slew_limit_A_per_s[k]! * c.current_lag_s[k]!;
  }

  override flow(dx: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, setPoint_V, trim_V, running, limit0_A, command_A } = this;
    const { perWindup, perLag, perFilter, perDelay } = this;
    const { droop_ohm, proportional_gain_A_per_V, isCommanded } = this.columns;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const integral = x[offset + count + k]!;
      const f = x[offset + 2 * count + k]!;
      const d1 = x[offset + 3 * count + k]!;
      const d2 = x[offset + 4 * count + k]!;
      const vk = v[node[k]!]!;
      const e = setPoint_V[k]! + trim_V[k]! - droop_ohm[k]! * f - (vk - 2 * d2);
      const wanted = proportional_gain_A_per_V[k]! * e + integral;
      const saturated: number =
        running[k] === 0
          ? this.resting_A(k, vk)
          : isCommanded[k] === 1
            ? command_A[k]!
            : this.clamp(k, wanted, i, limit0_A[k]!);
      dx[offset + k] = (saturated - i) * perLag[k]!;
      dx[offset + count + k] = (saturated - integral) * perWindup[k]!;
      dx[offset + 2 * count + k] = (i - f) * perFilter[k]!;
      // a/b = 3/a: both rates are zero where there is no delay.
      dx[offset + 3 * count + k] = perDelay[k]! * d2;
      dx[offset + 4 * count + k] = 3 * perDelay[k]! * (vk - d1 - d2);
    }
  }

  override inject(into: Float64Array, x: Float64Array): void {
    for (let k = 0; k < this.count; k++) into[this.node[k]!]! += x[this.offset + k]!;
  }

  /** How the current of unit k falls with the bus voltage at rest [S]: 1/R of its static droop, 0 where it stands still. */
  restingSlope_S(k: number): number {
    return this.running[k] ? 1 / this.staticDroop_ohm(k) : 0;
  }

  /**
   * Currents at rest: (V + u − v)/R, R the static droop, between 0 and the limit. A clamped stage keeps its slope in the
   * matrix: without any, a bus held only by clamped stages would have none, and Newton would run the wrong way; the
   * currents it works on are exact all the same.
   */
  override balance(matrix: NodalMatrix, into: Float64Array, x: Float64Array, v: Float64Array): void {
    const { count, offset, node, running, setPoint_V, trim_V, limit0_A } = this;
    for (let k = 0; k < count; k++) {
      const limit = limit0_A[k]!;
      const R = this.staticDroop_ohm(k);
      const i = running[k] ? (setPoint_V[k]! + trim_V[k]! - v[node[k]!]!) / R : 0;
      x[offset + k] = i < 0 ? 0 : i > limit ? limit : i;
      matrix.addToGround(node[k]!, this.restingSlope_S(k));
    }
    this.inject(into, x);
  }

  /** Everything but the current, which is found with the node voltages; and the command that holds it. */
  override rest(x: Float64Array, v: Float64Array): void {
    const { count, offset, running, mode, command_A } = this;
    for (let k = 0; k < count; k++) {
      const i = x[offset + k]!;
      const isRunning = running[k] === 1;
      const integrates = this.columns.integral_gain_A_per_Vs[k]! > 0;
      command_A[k] = isRunning ? i : 0;
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
  resting_A(k: Int, v: number): number {
    return this.rest_A[k]! * foldBack_ratio(this.perFoldBack_V[k]!, v);
  }

  /** i_sat of unit k while it runs. */
  private clamp(k: Int, wanted: number, i: number, limit: number): number {
    const span = this.span_A[k]!;
    const lo: number = i > span ? i - span : 0;
    const hi = limit < i + span ? limit : i + span;
    const below = wanted < hi ? wanted : hi;
    return below > lo ? below : lo;
  }
}
