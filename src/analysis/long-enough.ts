/**
 * A heat rating is one of RMS over the time in which the part warms up. Over whole periods of a load that
 * repeats, the RMS is that of a run without end; over a shorter stretch it says what was, not what heats.
 */
import type { Case } from './case.ts';
import type { Reading } from './reading.ts';

/** Adds to a reading what it was taken over; beyond the limit a short stretch cannot be judged. */
export function overHeat(c: Case, thermal_s: number, reading: Reading): Reading {
  const { from_s, to_s } = c.result.window;
  const window_s = to_s - from_s;
  if (reading.value === null || c.period_s !== null || !(thermal_s > window_s)) return reading;
  const text = (s: number): string => `${Number(s.toPrecision(3))} s`;
  const note = `RMS over ${text(window_s)}, short of the ${text(thermal_s)} in which it warms up`;
  const reason = [reading.reason, note].filter((part) => part !== null && part !== undefined).join('; ');
  return { ...reading, reason, tooShort: true };
}
