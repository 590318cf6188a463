import { medianInterval_s, type Series } from '../../samples/series.ts';

/** Fewer changes than this say nothing about how a sensor renews. */
const fewestChanges = 10;
/** Changes looked at: enough to know a sensor by. */
const mostChanges = 20_000;
/** Share of the runs that must be about equally long for a sensor that renews by a clock of its own. */
const regular = 0.6;

/**
 * How often a sensor that is read faster than it renews really renews [s]: the median time from one change of
 * value to the next, where that is two intervals or more and most such times are alike (within a quarter, or
 * within one interval). null where values do not repeat so: then the load itself was steady at times.
 */
export function renewal_s(series: Series): number | null {
  const { time_s, power_W } = series;
  const changes: number[] = [];
  for (let i = 1; i < time_s.length && changes.length < mostChanges; i++) {
    if (power_W[i] !== power_W[i - 1]) changes.push(time_s[i]!);
  }
  if (changes.length < fewestChanges) return null;
  const waits = changes.slice(1).map((t, i) => t - changes[i]!);
  const median = waits.toSorted((a, b) => a - b)[waits.length >> 1]!;
  const interval_s = medianInterval_s(time_s);
  if (median < 1.5 * interval_s) return null;
  const slack = Math.max(0.25 * median, 1.05 * interval_s);
  const alike = waits.filter((wait) => Math.abs(wait - median) <= slack).length;
  return alike >= regular * waits.length ? median : null;
}
