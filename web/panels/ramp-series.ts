/** Ramps of the AC power as a trace: from the run's window means to lowest and highest ramp of each bucket. */
import type { WindowMeans } from '../../src/engine/result.ts';
import type { Span } from '../../src/events/spans.ts';
import type { Record, Series } from '../record.ts';

export interface Ramps {
  readonly window_s: number;
  readonly series: Series;
  /** Where a window before and one after fit into the run: elsewhere there is no ramp, which is not a ramp of 0. */
  readonly fits: Span;
}

/**
 * (mean of the window after t − mean of the window before t) / window, at every t on the grid of the means, as
 * `analysis/signal/ramp.ts` judges it. null where no two windows fit.
 */
export function rampsOver(means: WindowMeans, window_s: number, record: Record): Ramps | null {
  const power = means.columns.get('total.ac_power_W');
  const w = Math.round(window_s / means.width_s);
  if (power === undefined || power.length < 2 * w) return null;
  const sums = new Float64Array(power.length + 1);
  for (let j = 0; j < power.length; j += 1) sums[j + 1] = sums[j]! + power[j]!;
  const { bucketCount, edges_s } = record;
  const min = new Float32Array(bucketCount);
  const max = new Float32Array(bucketCount);
  const clamp = (j: number): number => Math.min(power.length - w, Math.max(w, j));
  for (let b = 0; b < bucketCount; b += 1) {
    const first = clamp(Math.floor((edges_s[b]! - means.from_s) / means.width_s));
    const last = Math.max(first, clamp(Math.ceil((edges_s[b + 1]! - means.from_s) / means.width_s)));
    min[b] = Number.POSITIVE_INFINITY;
    max[b] = Number.NEGATIVE_INFINITY;
    for (let j = first; j <= last; j += 1) {
      const ramp = (sums[j + w]! - 2 * sums[j]! + sums[j - w]!) / (w * w * means.width_s);
      if (ramp < min[b]!) min[b] = ramp;
      if (ramp > max[b]!) max[b] = ramp;
    }
  }
  const until_s = means.from_s + power.length * means.width_s;
  return {
    window_s,
    series: { min, max },
    fits: { from_s: means.from_s + window_s, to_s: until_s - window_s },
  };
}

/** The steeper of the ramps of a bucket, with its sign. */
export function steepest({ min, max }: Series, bucket: number): number {
  return -min[bucket]! > max[bucket]! ? min[bucket]! : max[bucket]!;
}

/** Lowest and highest ramp within stretches of time; null where no bucket lies in them whole. */
export function rampsWithin(
  { series }: Ramps,
  { edges_s, bucketCount }: Record,
  spans: readonly Span[],
): [number, number] | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let b = 0;
  for (const { from_s, to_s } of spans) {
    while (b < bucketCount && edges_s[b]! < from_s) b += 1;
    for (; b < bucketCount && edges_s[b + 1]! <= to_s; b += 1) {
      low = Math.min(low, series.min[b]!);
      high = Math.max(high, series.max[b]!);
    }
  }
  return low <= high ? [low, high] : null;
}
