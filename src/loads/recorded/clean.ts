import type { Samples } from './samples.ts';
import { type Series, trapezoid_J } from './series.ts';

export interface Cleaned {
  readonly series: Series;
  readonly negatives: number;
  readonly duplicates: number;
  /** Duplicates whose powers differ. */
  readonly conflicts: number;
  /** Energy of the sorted samples before anything is left out, after negatives, after merging [J]. */
  readonly sorted_J: number;
  readonly positive_J: number;
  readonly merged_J: number;
}

/** Sorts by stamp, leaves out negative powers, merges equal stamps to the mean of their powers. */
export function clean(samples: Samples): Cleaned {
  const { time_s, power_W } = samples;
  const order = sortedOrder(time_s);
  const t = Float64Array.from(order, (i) => time_s[i]!);
  const p = Float64Array.from(order, (i) => power_W[i]!);
  const sorted_J = trapezoid_J(t, p);
  let kept = 0;
  for (let i = 0; i < t.length; i++) {
    if (p[i]! < 0) continue;
    t[kept] = t[i]!;
    p[kept] = p[i]!;
    kept++;
  }
  const positive_J = trapezoid_J(t.subarray(0, kept), p.subarray(0, kept));
  let merged = 0;
  let conflicts = 0;
  for (let i = 0; i < kept; ) {
    const first = p[i]!;
    let sum = 0;
    let j = i;
    for (; j < kept && t[j] === t[i]; j++) {
      sum += p[j]!;
      if (p[j] !== first) conflicts++;
    }
    t[merged] = t[i]!;
    p[merged] = j - i === 1 ? first : sum / (j - i);
    merged++;
    i = j;
  }
  const series = { time_s: t.slice(0, merged), power_W: p.slice(0, merged) };
  return {
    series,
    negatives: t.length - kept,
    duplicates: kept - merged,
    conflicts,
    sorted_J,
    positive_J,
    merged_J: trapezoid_J(series.time_s, series.power_W),
  };
}

/** Indices by rising stamp; equal stamps keep their order. */
function sortedOrder(time_s: Float64Array): Uint32Array {
  const order = Uint32Array.from(time_s, (_, i) => i);
  let rising = true;
  for (let i = 1; i < time_s.length && rising; i++) rising = time_s[i]! >= time_s[i - 1]!;
  return rising ? order : order.sort((a, b) => time_s[a]! - time_s[b]! || a - b);
}
