/**
 * Relative voltage changes at the point of connection, from half-cycle values (10 ms means of the power).
 *
 * IEC 61000-3-3 states them for one change between two steady states: d_max the largest difference of two
 * values during it, d_c that of the steady states. A pulsed load may never be steady for long, so here:
 * d_max is highest minus lowest half-cycle value within any 10 s; d_c is the largest difference of adjacent
 * means over 1 s; the stay is the distance from the mean of the stretch that is kept for 0.5 s. Never kinder
 * than the standard's reading of one change.
 */

import { highestFloor } from '../read/line.ts';
import { meanOf } from '../signal/detrend.ts';
import { steepestRamp } from '../signal/ramp.ts';
import { largestRange } from '../signal/range.ts';

const changeLength_s = 10;
const steady_s = 1;

export interface ChangeReading {
  readonly value: number;
  readonly time_s: number;
}

/** Largest difference of two half-cycle values within 10 s; its end. null without values. */
export function largestChange(fall: Float64Array, from_s: number, width_s: number): ChangeReading | null {
  const found = largestRange(fall, from_s, width_s, changeLength_s);
  return found === null ? null : { value: found.range, time_s: found.time_s };
}

/** Largest difference of adjacent means over 1 s; where they meet. null below 2 s. */
export function steadyChange(fall: Float64Array, from_s: number, width_s: number): ChangeReading | null {
  const found = steepestRamp(fall, from_s, width_s, steady_s, []);
  return found === null ? null : { value: Math.abs(found.ramp) * steady_s, time_s: found.time_s };
}

/** The distance from the mean, either way, that is kept for stay_s at least. null for shorter stretches. */
export function changeKept(
  fall: Float64Array,
  from_s: number,
  width_s: number,
  stay_s: number,
): ChangeReading | null {
  const length = Math.max(1, Math.round(stay_s / width_s));
  if (fall.length < length) return null;
  const mean = meanOf(fall);
  const apart = fall.map((d) => d - mean);
  const down = highestFloor(apart, length);
  for (let j = 0; j < apart.length; j++) apart[j] = -apart[j]!;
  const up = highestFloor(apart, length);
  const most = down.value >= up.value ? down : up;
  return { value: Math.max(0, most.value), time_s: from_s + most.start * width_s };
}
