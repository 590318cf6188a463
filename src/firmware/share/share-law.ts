/**
 * The law of the share. Every T_s, with y_k the current of unit k over its rated one:
 *
 *   average   b = mean of y over the units that take part          e_k = b − y_k
 *   highest   b = max of y − δ                                     e_k = b − y_k, trims from 0 upward
 *   u_k ← clamp((1 − T_s/T_leak) u_k + K T_s D(e_k), ±U_max)       K = (R_d + R_line) I_r/τ_sh
 *   D(e) = e − band above the band, e + band below −band, else 0
 *   command_k = u_k rounded to a whole number of quanta
 *
 * The memory keeps full resolution, or small errors would never add up. The dead band is subtracted, so that the trim has
 * no jump at its edge. A common line that is stuck makes b what it is stuck at. On a lost signal trims stand or fade.
 * Average mode has a common mode that it does not see: the leakage holds it. Numbers alone, as it is also translated to C.
 */
import type { Int } from '../../base/int.ts';

/** What the share of a group is tuned to. */
export interface ShareLaw {
  /** Units of the group. */
  readonly count: Int;
  /** The common target is just below the highest current, and trims go upward alone; otherwise it is the mean. */
  readonly isHighest: boolean;
  /** How far below the highest current, over rated. */
  readonly highest_offset_ratio: number;
  /** Error that is left alone, over rated. */
  readonly dead_band_ratio: number;
  /** Clamp of the trim [V]. */
  readonly trim_limit_V: number;
  /** Smallest step of the command [V]; 0 for none. */
  readonly trim_quantum_V: number;
  /** On a lost signal trims fade; otherwise they stand. */
  readonly fadesWhenLost: boolean;
  /** What a period leaves of a trim, 1 - T_s/T_leak. */
  readonly keep_ratio: number;
  /** How far a period moves the trim of each unit for an error of 1, K T_s [V]. */
  readonly step_V: Float64Array;
}

/** What it remembers from one run to the next. */
export interface ShareMemory {
  /** Trim of each unit, in full resolution [V]. */
  readonly trim_V: Float64Array;
  /** 1 where the clamp holds a trim. */
  readonly isClamped: Uint8Array;
}

/** What it is told at a run. Flags are 0 or 1, one for each unit. */
export interface ShareInput {
  /** Current over rated of each unit, as its sensor shows it, as old as the latency. */
  current_ratio: Float64Array;
  /** It is this unit's turn; all of them where units run in step. */
  readonly isDue: Uint8Array;
  /** Takes part: runs, and nothing else decides what it carries. */
  readonly isSharing: Uint8Array;
  /** Its current limit alone keeps it from taking part. */
  readonly isAtLimit: Uint8Array;
  /** Stands still, in a group that forgets: its trim begins at 0 again. */
  readonly isForgotten: Uint8Array;
  /** The signal has stayed away for too long. */
  isLost: boolean;
  /** The common line is stuck, and at what. */
  isStuck: boolean;
  stuck_ratio: number;
}

/** Error beyond the dead band. */
export function beyond(e: number, band: number): number {
  return e > band ? e - band : e < -band ? e + band : 0;
}

/** A trim held to what it may be [V]. */
export function clampedTrim_V(law: ShareLaw, u: number): number {
  const U = law.trim_limit_V;
  const least = law.isHighest ? 0 : -U;
  return u > U ? U : u < least ? least : u;
}

/** What units are to carry, over rated: the mean or just below the highest of those that take part. */
export function commonTarget(law: ShareLaw, input: ShareInput): number {
  const { current_ratio, isSharing, isStuck, stuck_ratio } = input;
  let sum = 0;
  let most = 0;
  let sharing: Int = 0;
  for (let k = 0; k < law.count; k++) {
    if (isSharing[k] === 0) continue;
    const y = current_ratio[k]!;
    sum += y;
    if (sharing === 0 || y > most) most = y;
    sharing++;
  }
  if (!law.isHighest) return isStuck ? stuck_ratio : sharing > 0 ? sum / sharing : 0;
  return (isStuck ? stuck_ratio : most) - law.highest_offset_ratio;
}

/** Somebody takes part: there is a target. */
function isAnySharing(law: ShareLaw, input: ShareInput): boolean {
  for (let k = 0; k < law.count; k++) if (input.isSharing[k] !== 0) return true;
  return false;
}

function moveTrim(law: ShareLaw, memory: ShareMemory, input: ShareInput, k: Int, target: number): void {
  const { trim_V, isClamped } = memory;
  if (input.isForgotten[k] !== 0) {
    trim_V[k] = 0;
    isClamped[k] = 0;
    return;
  }
  // Left out of the target; one at its limit that carries more than that still comes down.
  const yields = input.isSharing[k] === 0;
  if (yields && (input.isLost || input.isAtLimit[k] === 0 || !isAnySharing(law, input))) return;
  if (input.isLost) {
    if (law.fadesWhenLost) trim_V[k] = trim_V[k]! * law.keep_ratio;
    return;
  }
  const error = beyond(target - input.current_ratio[k]!, law.dead_band_ratio);
  const u = law.keep_ratio * trim_V[k]! + law.step_V[k]! * error;
  if (yields && u > trim_V[k]!) return;
  trim_V[k] = clampedTrim_V(law, u);
  isClamped[k] = u > law.trim_limit_V || u < -law.trim_limit_V ? 1 : 0;
}

/** A trim as it is commanded, a whole number of quanta [V]. */
export function quantised_V(law: ShareLaw, u: number): number {
  const quantum = law.trim_quantum_V;
  return quantum > 0 ? Math.round(u / quantum) * quantum : u;
}

/** One run: moves the trims of the units whose turn it is and writes their commands [V]. */
export function runShare(
  law: ShareLaw,
  memory: ShareMemory,
  input: ShareInput,
  command_V: Float64Array,
): void {
  const target = input.isLost ? 0 : commonTarget(law, input);
  for (let k = 0; k < law.count; k++) {
    if (input.isDue[k] === 0) continue;
    moveTrim(law, memory, input, k, target);
    command_V[k] = quantised_V(law, memory.trim_V[k]!);
  }
}
