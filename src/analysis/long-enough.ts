/**
 * A heat rating is one of RMS over the time in which the part warms up. Over the cycle of a load that repeats the RMS
 * is that of a run without end; over a shorter stretch it says what was, not what heats.
 */
import { type Case, repeated, windowLength_s } from './case.ts';
import { type Reading, unsettled } from './reading.ts';

/**
 * What RMS values of the whole window are multiplied by, so that they are never kinder than those of the cycle that
 * goes on: above 1 where something changed on the way.
 */
export function rmsFactor(c: Case): number {
  return repeated(c)?.rms_factor ?? 1;
}

/** A stretch shorter than the part takes to warm up settles nothing. */
export function overHeat(c: Case, thermal_s: number, reading: Reading): Reading {
  if (reading.value !== null && rmsFactor(c) > 1) return { ...reading, isBound: true };
  const window_s = windowLength_s(c);
  if (reading.value === null || repeated(c) !== null || !(thermal_s > window_s)) return reading;
  const text = (s: number): string => `${Number(s.toPrecision(3))} s`;
  const because = `RMS over ${text(window_s)}, short of the ${text(thermal_s)} in which it warms up`;
  return unsettled(reading, because, 'either');
}
