/**
 * The law of a sampled voltage loop. Every period T_v, of each shelf with sensed voltage v and current i, set point V, trim u,
 * a of its modules alive, and q = T_v/2 over the time constant of each part:
 *
 *   f   = (φ + q_f i)/(1 + q_f)                     φ ← (1 − q_f) f + q_f i         droop filter, q_f = T_v/(2 τ_d)
 *   e   = V + u − R_d f/a − v
 *   w   = a K_p (1 + q_x) e + ξ                     q_x = T_v K_i/(2 K_p)
 *   ı̂   = c + (i − c) exp(−T_c/τ_i)                 the current when the new command takes effect, c the last one
 *   c   = max(lo, min(w, hi))                       lo = max(0, ı̂ − a D), hi = min(I_lim, ı̂ + a D); 0 when it stands
 *   x   = (ξ + q_x c)/(1 + q_x)                     ξ ← (1 − q_x) x + q_x c         integrator, which follows the clamp
 *   command = c rounded to a whole number of quanta
 *
 * D = S_i T_v/(1 − exp(−T_v/τ_i)) is how far ahead a command may lie so that the current moves by S_i T_v in a period.
 *
 * It is the loop of the stage (devices/stage/stage.ts) by the trapezoidal rule, with which the engine takes the stage's own:
 * φ and ξ are a state and half its step, so that one number is kept of each. Its error is of second order in T_v and its
 * integrator lags by exactly a quarter turn; the backward rule's leads by ω T_v/2 more. What is left of the sampling is the
 * delay, T_c + T_v/2. The integrator keeps full resolution, or errors below a quantum would be frozen. Modules that
 * leave take their part of the memory along. Numbers alone, as it is also translated to C.
 */
import type { Int } from '../../base/int.ts';

/** What the loops of a group of shelves are tuned to, one value for each shelf with all its modules. */
export interface VoltageLaw {
  /** Shelves of the group. */
  readonly count: Int;
  /** K_p [A/V]. */
  readonly proportional_gain_A_per_V: Float64Array;
  /** R_d [ohm]. */
  readonly droop_ohm: Float64Array;
  /** q_f, half a period over the droop filter's time constant. */
  readonly filter_ratio: Float64Array;
  /** q_x, half a period over that of the integrator, K_p/K_i. */
  readonly integral_ratio: Float64Array;
  /** D, how far the command may lie from the current [A]. */
  readonly reach_A: Float64Array;
  /** exp(-T_c/tau_i), what is left of a distance between current and command when the next command takes effect. */
  readonly fade_ratio: Float64Array;
  /** Smallest step of the command [A]; 0 for none. */
  readonly quantum_A: Float64Array;
}

/** What they remember from one run to the next. */
export interface VoltageMemory {
  /** The droop filter and half its next step [A]. */
  readonly filter_A: Float64Array;
  /** The integrator and half its next step, in full resolution [A]. */
  readonly integral_A: Float64Array;
  /** The last command, as it was given [A]. */
  readonly command_A: Float64Array;
  /** Share of the modules that were alive. */
  readonly alive_ratio: Float64Array;
  /** What holds the command: 0 nothing, 1 the slew limit upward, 2 the current limit, 3 the slew limit downward, 4 zero. */
  readonly heldBy: Uint8Array;
}

/** What they are told at a run. */
export interface VoltageInput {
  /** Output voltage, as its converter shows it [V]. */
  readonly voltage_V: Float64Array;
  /** Output current, as its converter shows it [A]. */
  readonly current_A: Float64Array;
  /** Set point plus trim [V]. */
  readonly reference_V: Float64Array;
  /** Highest current that it may give [A]. */
  readonly limit_A: Float64Array;
  /** Share of the modules that are alive. */
  readonly alive_ratio: Float64Array;
  /** 1 where it runs. */
  readonly isRunning: Uint8Array;
}

/** A command as it is given, a whole number of quanta [A]. */
function quantised_A(quantum: number, c: number): number {
  return quantum > 0 ? Math.round(c / quantum) * quantum : c;
}

/** The current of shelf k when its new command takes effect [A]. */
function foreseen_A(law: VoltageLaw, memory: VoltageMemory, input: VoltageInput, k: Int): number {
  const last = memory.command_A[k]!;
  return last + (input.current_A[k]! - last) * law.fade_ratio[k]!;
}

/** What shelf k is commanded to when it runs and its loop asks for `wanted` [A]. */
function clamped_A(
  law: VoltageLaw,
  memory: VoltageMemory,
  input: VoltageInput,
  k: Int,
  wanted: number,
): number {
  const at = foreseen_A(law, memory, input, k);
  const reach = input.alive_ratio[k]! * law.reach_A[k]!;
  const limit = input.limit_A[k]!;
  const lo = at > reach ? at - reach : 0;
  const hi = limit < at + reach ? limit : at + reach;
  if (hi < lo || wanted < lo) {
    memory.heldBy[k] = at > reach ? 3 : 4;
    return lo;
  }
  if (wanted > hi) {
    memory.heldBy[k] = limit < at + reach ? 2 : 1;
    return hi;
  }
  memory.heldBy[k] = 0;
  return wanted;
}

/** Of what a law of another form asks, what a shelf may be commanded to: it knows no slew limit but its own. */
export function heldCommand_A(
  law: VoltageLaw,
  memory: VoltageMemory,
  input: VoltageInput,
  k: Int,
  wanted: number,
): number {
  const limit = input.limit_A[k]!;
  memory.heldBy[k] = 0;
  if (input.isRunning[k] === 0) return 0;
  if (wanted < 0) memory.heldBy[k] = 4;
  else if (wanted > limit) memory.heldBy[k] = 2;
  const c = wanted < 0 ? 0 : wanted > limit ? limit : wanted;
  return quantised_A(law.quantum_A[k]!, c);
}

/** Modules that have left take their part of the memory along. */
function shrink(memory: VoltageMemory, input: VoltageInput, k: Int): void {
  const share = input.alive_ratio[k]! / memory.alive_ratio[k]!;
  memory.alive_ratio[k] = input.alive_ratio[k]!;
  if (share >= 1) return;
  memory.filter_A[k] = memory.filter_A[k]! * share;
  memory.integral_A[k] = memory.integral_A[k]! * share;
}

/** One run: the current that each shelf is commanded to [A]. */
export function runVoltage(
  law: VoltageLaw,
  memory: VoltageMemory,
  input: VoltageInput,
  command_A: Float64Array,
): void {
  for (let k = 0; k < law.count; k++) {
    shrink(memory, input, k);
    const alive = input.alive_ratio[k]!;
    const i = input.current_A[k]!;
    const qf = law.filter_ratio[k]!;
    const qx = law.integral_ratio[k]!;
    const f = (memory.filter_A[k]! + qf * i) / (1 + qf);
    const e = input.reference_V[k]! - (law.droop_ohm[k]! / alive) * f - input.voltage_V[k]!;
    const wanted = alive * law.proportional_gain_A_per_V[k]! * (1 + qx) * e + memory.integral_A[k]!;
    let c = 0;
    if (input.isRunning[k] !== 0) c = clamped_A(law, memory, input, k, wanted);
    else memory.heldBy[k] = 0;
    const x = (memory.integral_A[k]! + qx * c) / (1 + qx);
    memory.filter_A[k] = (1 - qf) * f + qf * i;
    memory.integral_A[k] = (1 - qx) * x + qx * c;
    memory.command_A[k] = quantised_A(law.quantum_A[k]!, c);
    command_A[k] = memory.command_A[k]!;
  }
}
