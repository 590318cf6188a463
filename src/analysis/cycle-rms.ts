/**
 * What goes on, where something changed on the way: the RMS of the last rounds of the load alone. That of the whole
 * window holds the time before too, which may have been an easier one.
 */
import type { Case } from './case.ts';
import { lastRounds } from './cycle.ts';

/** RMS of a channel's 10 ms means over what goes on; null where nothing does or no means were kept. */
export function cycleRms(c: Case, channel: string): number | null {
  const means = c.result.means.columns.get(channel);
  return means === undefined ? null : rmsInCycle(c, means);
}

/** The same of any values, one per 10 ms mean. */
export function rmsInCycle(c: Case, values: Float64Array): number | null {
  const span = lastRounds(c);
  if (typeof span === 'string') return null;
  const { from_s, width_s } = c.result.means;
  const first = Math.max(0, Math.ceil((span.from_s - from_s) / width_s - 1e-6));
  const end = Math.min(values.length, Math.floor((span.to_s - from_s) / width_s + 1e-6));
  if (end <= first) return null;
  let square = 0;
  for (let j = first; j < end; j++) square += values[j]! * values[j]!;
  return Math.sqrt(square / (end - first));
}
