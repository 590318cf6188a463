import { onePerStamp } from './one-per-stamp.ts';
import type { Samples } from './samples.ts';
import { firstAbove, type Series, trapezoid_J } from './series.ts';
import type { Below } from './signs/far-below-zero.ts';
import { reordered, sortedOrder } from './sorted-order.ts';
import { type Runs, runsOf } from './stamp-order.ts';

export interface Cleaned {
  readonly series: Series;
  /** Negative powers, which are left out. */
  readonly below: Below;
  readonly duplicates: number;
  /** Duplicates whose powers differ. */
  readonly conflicts: number;
  /** Energy of the sorted samples before anything is left out, after negatives, after merging [J]. */
  readonly sorted_J: number;
  readonly positive_J: number;
  readonly merged_J: number;
  /** Samples after which at least one was left out, by their place in the series, rising. */
  readonly lost: readonly number[];
  /** Rising stretches that the stamps stand in. */
  readonly runs: Runs;
}

/**
 * Counts stamps from `origin_s` (0 or below: stamps that this makes equal must be found here), sorts by them, leaves out negative powers, merges equal stamps to the
 * mean of their powers.
 */
export function clean(samples: Samples, origin_s: number): Cleaned {
  const taken = samples.take();
  let { time_s: t, power_W: p } = taken;
  const holes_s = taken.holes_s.map((hole_s) => hole_s - origin_s);
  if (origin_s !== 0) for (let i = 0; i < t.length; i++) t[i]! -= origin_s;
  const runs = runsOf(t);
  if (runs.runs > 1) {
    const order = sortedOrder(t);
    t = reordered(t, order);
    p = reordered(p, order);
  }
  const n = t.length;
  const sorted_J = trapezoid_J(t, p);
  let kept = 0;
  const negatives_s: number[] = [];
  const below = negativesOf(t, p);
  for (let i = 0; i < n; i++) {
    if (p[i]! < 0) {
      if (kept > 0 && !(i > 0 && p[i - 1]! < 0)) negatives_s.push(t[i]!);
      continue;
    }
    t[kept] = t[i]!;
    p[kept] = p[i]!;
    kept++;
  }
  const positive_J = kept === n ? sorted_J : trapezoid_J(t.subarray(0, kept), p.subarray(0, kept));
  const { count: merged, conflicts } = onePerStamp(t, p, kept);
  const whole = merged === n;
  const series = whole
    ? { time_s: t, power_W: p }
    : { time_s: t.slice(0, merged), power_W: p.slice(0, merged) };
  return {
    series,
    below,
    duplicates: kept - merged,
    conflicts,
    sorted_J,
    positive_J,
    merged_J: whole ? sorted_J : trapezoid_J(series.time_s, series.power_W),
    lost: lostIn(series.time_s, [...holes_s, ...negatives_s]),
    runs,
  };
}

function negativesOf(t: Float64Array, p: Float64Array): Below {
  const isBelow = (_: number, i: number): boolean => p[i]! < 0;
  return { time_s: t.filter(isBelow), values: p.filter(isBelow) };
}

/** Places of the samples that stand before holes. */
export function lostIn(time_s: Float64Array, holes_s: readonly number[]): number[] {
  const places = new Set(holes_s.map((t) => firstAbove(time_s, t) - 1));
  return [...places].filter((i) => i >= 0 && i + 1 < time_s.length).sort((a, b) => a - b);
}
