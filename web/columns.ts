/**
 * Min/max per pixel column. Buckets narrower than a pixel are merged into the column they fall in, so that no
 * spike is lost; wider ones keep their own flat stretch, but for those of a single moment, which are a point. The
 * outline's arrays are made once and reused.
 */
import type { Band, Buckets, Series } from './series.ts';

/** An outline in pixels: x ascending, `low` and `high` in the quantity's unit, `mean` weighted by time. */
export interface Outline {
  count: number;
  readonly x: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly mean: Float64Array;
  /** 1 at the left end of a bucket wider than a pixel; the next point is its right end. */
  readonly wide: Uint8Array;
}

/** Room for a plot of that many pixel columns. */
export function makeOutline(columns: number): Outline {
  // A column holds at most one merged point and two ends of a wide bucket.
  const room = 3 * columns + 12;
  return {
    count: 0,
    x: new Float64Array(room),
    low: new Float64Array(room),
    high: new Float64Array(room),
    mean: new Float64Array(room),
    wide: new Uint8Array(room),
  };
}

export interface Stretch {
  readonly from_s: number;
  readonly to_s: number;
  /** Width of the plot [px]. */
  readonly width: number;
  readonly firstBucket: number;
  readonly lastBucket: number;
}

/** Fills `out` with the outline of a series over the stretch shown. */
export function outline(out: Outline, { edges_s, moments_s }: Buckets, series: Band, stretch: Stretch): void {
  const { from_s, to_s, width, firstBucket, lastBucket } = stretch;
  const scale = width / (to_s - from_s);
  let n = 0;
  let column = Number.NEGATIVE_INFINITY;
  let [low, high, sum, weight] = [0, 0, 0, 0];
  const put = (x: number, l: number, h: number, m: number, wide: 0 | 1 = 0): void => {
    out.x[n] = x;
    out.low[n] = l;
    out.high[n] = h;
    out.mean[n] = m;
    out.wide[n] = wide;
    n += 1;
  };
  for (let b = firstBucket; b <= lastBucket; b += 1) {
    const left = (edges_s[b]! - from_s) * scale;
    const right = (edges_s[b + 1]! - from_s) * scale;
    const min = series.min[b]!;
    const max = series.max[b]!;
    if (right - left >= 1) {
      if (weight > 0) put(column + 0.5, low, high, sum / weight);
      weight = 0;
      column = Number.NEGATIVE_INFINITY;
      const moment_s = moments_s[b]!;
      if (!Number.isNaN(moment_s)) {
        put((moment_s - from_s) * scale, min, max, (min + max) / 2);
        continue;
      }
      put(Math.max(left, -4), min, max, (min + max) / 2, 1);
      put(Math.min(right, width + 4), min, max, (min + max) / 2);
      continue;
    }
    const own = Math.floor((left + right) / 2);
    const share = right - left;
    if (own !== column) {
      if (weight > 0) put(column + 0.5, low, high, sum / weight);
      [column, low, high, sum, weight] = [own, min, max, 0, 0];
    }
    if (min < low) low = min;
    if (max > high) high = max;
    sum += (share * (min + max)) / 2;
    weight += share;
  }
  if (weight > 0) put(column + 0.5, low, high, sum / weight);
  out.count = n;
}

/** Mean value of a series in each pixel column, for stacking; columns no bucket's middle falls in are filled. */
export function columnMeans(
  out: Float64Array,
  { edges_s }: Pick<Buckets, 'edges_s'>,
  series: Series,
  stretch: Stretch,
): void {
  const { from_s, to_s, width, firstBucket, lastBucket } = stretch;
  const perPixel = (to_s - from_s) / width;
  let b = firstBucket;
  for (let column = 0; column < width; column += 1) {
    const left = from_s + column * perPixel;
    const right = left + perPixel;
    while (b < lastBucket && edges_s[b + 1]! <= left) b += 1;
    let sum = 0;
    let weight = 0;
    for (let k = b; k <= lastBucket; k += 1) {
      const start = Math.max(left, edges_s[k]!);
      const end = Math.min(right, edges_s[k + 1]!);
      if (end > start) {
        sum += (end - start) * series.mean[k]!;
        weight += end - start;
      }
      if (edges_s[k + 1]! >= right) break;
    }
    out[column] = weight > 0 ? sum / weight : Number.NaN;
  }
}
