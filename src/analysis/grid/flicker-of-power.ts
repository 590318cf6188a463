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
import {
  columnOf,
  meanOfSamples,
  mirroredBefore,
  roundAndRound,
  type Samples,
  through,
} from '../signal/samples.ts';

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
  const lead = Math.min(power_W.length, Math.round(settle_s * rate_Hz));
  const envelope = mirroredBefore(envelopeOf(power_W, fall_per_W), lead);
  const block = new Float64Array(length);
  const shorts: number[] = [];
  senseEnvelope(envelope, rate_Hz, lampAt(line_Hz), line_Hz, (sensed, from) => {
    for (let j = Math.max(0, lead - from); j < sensed.length; ) {
      const place = (from + j - lead) % length;
      const count = Math.min(sensed.length - j, length - place);
      block.set(sensed.subarray(j, j + count), place);
      if (place + count === length) shorts.push(shortTerm(block));
      j += count;
    }
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
  const cycle = columnOf(envelopeOf(cycle_W, fall_per_W));
  const cycles = (s: number): number => Math.max(1, Math.ceil((s * rate_Hz) / cycle.length));
  const lead = cycles(settle_s) * cycle.length;
  const envelope = roundAndRound(cycle, cycles(settle_s) + cycles(least_s));
  return shortTerm(sensationOfEnvelope(envelope, rate_Hz, lampAt(line_Hz), line_Hz).subarray(lead));
}

/** Voltage over what the meter holds as the mean, of a power. */
function envelopeOf(power_W: Samples, fall_per_W: number): Samples {
  const mean = meanOfSamples(power_W);
  return through(power_W, (stretch) => {
    for (let j = 0; j < stretch.length; j++) stretch[j] = 1 - fall_per_W * (stretch[j]! - mean);
  });
}
