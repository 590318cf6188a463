/**
 * A heat rating is one of RMS over the time in which the part warms up. Over the cycle of a load that repeats the RMS
 * is that of a run without end; over a shorter stretch it says what was, not what heats.
 */

import { type Reading, unsettled } from '../read/reading.ts';
import { type Case, repeated, windowLength_s } from './case.ts';
import { isGoingOnKnown } from './going-on.ts';

/** A stretch shorter than the part takes to warm up settles nothing. */
export function overHeat(c: Case, thermal_s: number, reading: Reading): Reading {
  const window_s = windowLength_s(c);
  if (reading.value === null || !(thermal_s > window_s)) return reading;
  if (repeated(c) === null) {
    const text = (s: number): string => `${Number(s.toPrecision(3))} s`;
    const because = `RMS over ${text(window_s)}, short of the ${text(thermal_s)} in which it warms up`;
    return unsettled(reading, because, 'either');
  }
  if (isGoingOnKnown(c)) return reading;
  return unsettled(reading, 'the rounds since the last event are too short a part of the run', 'either');
}
