/**
 * The law of the smoothing: what the trays are to carry together, P, by one of three references over one memory w, the
 * smoothed load, and each tray's part of it. Every T_ts, with s the power of all sources and q that of all trays:
 *
 *   load-following     w ← w + (T_ts/τ_s)(P_hat − w)             P = P_hat − w          P_hat = s + q
 *   source-ramp        w ← w + clamp(P_hat − w, ±R T_ts)         P = P_hat − w
 *   source-high-pass   w ← w + (k T_ts/τ_s)(s − w)               P ← P + min(1, T_ts/τ_f)(k (s − w) − P)
 *   smooth_k = P/N, or 0 where that is inside the dead band
 *
 * The first two are feed-forward: they see the load itself, and smooth as far up as their latency lets them. The third is
 * feedback on the source alone: of what is fast it leaves 1/(1 + k), and below it is the same first-order lag, with
 * (1 + k) τ_s/k. s and q must have one age. Numbers alone, as it is also translated to C.
 */
import type { Int } from '../../base/int.ts';

/** What the trays carry, as a number. */
export const referenceKind = { loadFollowing: 0, sourceRamp: 1, sourceHighPass: 2 } as const;

/** What the smoothing is tuned to. */
export interface SmoothingLaw {
  /** Trays of the group. */
  readonly count: Int;
  /** Which reference: 0 load-following, 1 source-ramp, 2 source-high-pass. */
  readonly reference: Int;
  /** How much of its distance w goes at a run: T_ts/tau_s, with high-pass k T_ts/tau_s. */
  readonly follow_ratio: number;
  /** Furthest that w goes at a run, R T_ts [W]: source-ramp alone. */
  readonly ramp_W: number;
  /** Gain k of the high-pass, and how much of its distance the lagged command goes at a run, min(1, T_ts/tau_f). */
  readonly feedback_gain_ratio: number;
  readonly feedback_ratio: number;
  /** On a lost signal the trays' power fades; otherwise it stands. What a run leaves of it then. */
  readonly fadesWhenLost: boolean;
  readonly lost_keep_ratio: number;
  /** Part of the load that trays carry while they assist. */
  readonly assist_ratio: number;
  /** Smoothing that is left alone, over a tray's power limit. */
  readonly dead_band_ratio: number;
}

/** What it remembers from one run to the next. */
export interface SmoothingMemory {
  /** Smoothed load w [W]. */
  smoothed_W: number;
  /** What the trays were last to carry together, and the lagged command of the feedback loop [W]. */
  total_W: number;
}

/** How a run begins: on from the last one; from here, with w such that the trays carry on; or afresh, the trays at 0. */
export const beginning = { onward: 0, fromHere: 1, afresh: 2 } as const;

/** What it is told at a run. */
export interface SmoothingInput {
  /** Power of all sources, and of all trays, into the bus, filtered alike and as old as the latency [W]. */
  sources_W: number;
  trays_W: number;
  /** How this run begins: 0 onward, 1 from here, 2 afresh. */
  begins: Int;
  /** AC is lost and no battery carries yet: the trays carry their part of the load. */
  isAssisting: boolean;
  /** The signal has stayed away for too long. */
  isLost: boolean;
  /** 1 for a tray that is on line. */
  readonly isOnLine: Uint8Array;
  /** Power that each tray may give at present, its rating or what it is derated to [W]. */
  readonly power_limit_W: Float64Array;
}

/** The smoothed load where a run that begins so begins [W]. */
export function beginningLoad_W(law: SmoothingLaw, memory: SmoothingMemory, input: SmoothingInput): number {
  const load = input.sources_W + input.trays_W;
  if (input.begins === beginning.onward) return memory.smoothed_W;
  const carried_W = input.begins === beginning.afresh ? 0 : memory.total_W;
  if (law.reference === referenceKind.sourceHighPass)
    return input.sources_W - carried_W / law.feedback_gain_ratio;
  return load - carried_W;
}

/** What the trays are to carry together [W]. */
function runReference(law: SmoothingLaw, memory: SmoothingMemory, input: SmoothingInput): number {
  const load = input.sources_W + input.trays_W;
  const source = input.sources_W;
  if (input.isLost) return law.fadesWhenLost ? memory.total_W * law.lost_keep_ratio : memory.total_W;
  if (law.reference === referenceKind.sourceHighPass) {
    memory.smoothed_W += law.follow_ratio * (source - memory.smoothed_W);
    const fast_W = law.feedback_gain_ratio * (source - memory.smoothed_W);
    return memory.total_W + law.feedback_ratio * (fast_W - memory.total_W);
  }
  if (law.reference === referenceKind.sourceRamp) {
    const most = law.ramp_W;
    const gap = load - memory.smoothed_W;
    memory.smoothed_W += gap > most ? most : gap < -most ? -most : gap;
  } else memory.smoothed_W += law.follow_ratio * (load - memory.smoothed_W);
  return load - memory.smoothed_W;
}

/** Trays on line. */
export function onLine(isOnLine: Uint8Array, count: Int): Int {
  let n: Int = 0;
  for (let k = 0; k < count; k++) if (isOnLine[k] !== 0) n++;
  return n;
}

/**
 * One run: moves the smoothed load and writes what each tray is to carry beside its charging [W], 0 inside the dead band.
 * Where no tray is on line it does nothing.
 */
export function runSmoothing(
  law: SmoothingLaw,
  memory: SmoothingMemory,
  input: SmoothingInput,
  smooth_W: Float64Array,
): void {
  const n = onLine(input.isOnLine, law.count);
  if (n === 0) return;
  if (input.begins !== beginning.onward) memory.smoothed_W = beginningLoad_W(law, memory, input);
  if (input.begins === beginning.afresh) memory.total_W = 0;
  const load = input.sources_W + input.trays_W;
  const part = input.isAssisting ? (law.assist_ratio * load) / n : 0;
  memory.total_W = input.isAssisting ? part * n : runReference(law, memory, input);
  const share = input.isAssisting ? part : memory.total_W / n;
  for (let k = 0; k < law.count; k++) {
    const band = input.isAssisting ? 0 : law.dead_band_ratio * input.power_limit_W[k]!;
    smooth_W[k] = share > band || share < -band ? share : 0;
  }
}
