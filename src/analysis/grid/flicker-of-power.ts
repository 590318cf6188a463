/**
 * Flicker at the point of connection from the power drawn there.
 *
 * The voltage's envelope is 1 − (ΔV/V)(P − mean): what block 1 of the meter holds is the mean. P_st needs ten
 * minutes and P_lt two hours; of a periodic load a shorter stretch of whole periods can be played round and
 * round instead, which gives P_st of a load that goes on like this for ten minutes: an estimate.
 */

import { lampAt } from '../flicker/lamp.ts';
import { sensationOfEnvelope, senseEnvelope } from '../flicker/sensation.ts';
import { longTerm, shortTerm } from '../flicker/statistics.ts';
import { meanOf } from '../signal/detrend.ts';
import type { Samples } from '../signal/samples.ts';

export const tenMinutes_s = 600;
export const twoHours_s = 7200;
/** Six times the slowest filter's 3.2 s: the high-pass has forgotten how it began. */
const settle_s = 20;
/** Levels exceeded for 0.1 % of the time need a thousand independent moments; P_inst moves within 0.3 s. */
const least_s = 10;

/**
 * P_st of each whole ten minutes of the power, after the meter has settled on the beginning of it, mirrored in time.
 * Only ten minutes of P_inst are held at a time.
 */
export function shortTerms(power_W: Samples, rate_Hz: number, line_Hz: number, fall_per_W: number): number[] {
  const length = Math.round(tenMinutes_s * rate_Hz);
  const blocks = Math.floor(power_W.length / length);
  if (blocks === 0) return [];
  const mean = meanOf(power_W);
  const lead = Math.min(power_W.length, Math.round(settle_s * rate_Hz));
  const envelope: Samples = {
    length: lead + power_W.length,
    at: (j) => 1 - fall_per_W * (power_W.at(j < lead ? lead - 1 - j : j - lead)! - mean),
  };
  const block = new Float64Array(length);
  const shorts: number[] = [];
  senseEnvelope(envelope, rate_Hz, lampAt(line_Hz), line_Hz, (sensed, j) => {
    if (j < lead) return;
    const place = (j - lead) % length;
    block[place] = sensed;
    if (place === length - 1) shorts.push(shortTerm(block));
  });
  return shorts;
}

/** P_lt of every twelve P_st in a row; the largest. null below two hours. */
export function longTermOf(shorts: readonly number[]): number | null {
  const twelve = twoHours_s / tenMinutes_s;
  let most: number | null = null;
  for (let k = 0; k + twelve <= shorts.length; k++) {
    const value = longTerm(shorts.slice(k, k + twelve));
    if (most === null || value > most) most = value;
  }
  return most;
}

/** P_st of a load that repeats `cycle_W`, whole periods, for ten minutes. */
export function shortTermOfCycle(
  cycle_W: Samples,
  rate_Hz: number,
  line_Hz: number,
  fall_per_W: number,
): number {
  const mean = meanOf(cycle_W);
  const n = cycle_W.length;
  const cycles = (s: number): number => Math.max(1, Math.ceil((s * rate_Hz) / n)) * n;
  const lead = cycles(settle_s);
  const cycle = Float64Array.from({ length: n }, (_, j) => 1 - fall_per_W * (cycle_W.at(j)! - mean));
  const envelope: Samples = { length: lead + cycles(least_s), at: (j) => cycle[j % n] };
  return shortTerm(sensationOfEnvelope(envelope, rate_Hz, lampAt(line_Hz), line_Hz).subarray(lead));
}
