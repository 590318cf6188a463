/**
 * Ripple by frequency band: peak to peak of the band's content over the mean.
 *
 * The content is rebuilt from the spectrum of the window. A bin at f belongs to the band low ≤ f < high, so
 * that neighbouring bands share no bin. Over whole periods the bins are the harmonics themselves; otherwise a
 * straight line is removed first, so that a drift does not leak into the bands. The rebuilt wave is drawn on
 * a grid of at least 32 points a cycle of the highest bin: the peak is found to within 0.5 %.
 */
import { meanOf, withoutLine } from './detrend.ts';
import { complexOf, inverse, transform } from './fourier.ts';
import type { Band } from './report.ts';

export const bandEdges_Hz: readonly (readonly [number, number])[] = [
  [0.1, 0.5],
  [0.5, 3],
  [3, 20],
  [20, 300],
];

/** Band edges that fall on a bin but for rounding belong to the upper band. */
const edgeSlack_bins = 1e-6;
const pointsPerCycle = 32;
/** 2^21 points: above it the grid of the highest band gets coarser, but never below 4 points a cycle. */
const gridLimit = 2 ** 21;

/**
 * Ripple of each band, null where the stretch is shorter than two of the band's longest periods or the
 * samples do not reach up to the band's lower edge.
 * `wholePeriods`: the stretch holds whole periods of a periodic signal; no line is removed.
 */
export function bandRipple(
  samples: Float64Array,
  rate_Hz: number,
  wholePeriods: boolean,
  edges_Hz: readonly (readonly [number, number])[] = bandEdges_Hz,
): Band[] {
  const n = samples.length;
  const duration_s = n / rate_Hz;
  const mean = meanOf(samples);
  const X = n < 2 ? new Float64Array(0) : transform(complexOf(wholePeriods ? samples : withoutLine(samples)));
  return edges_Hz.map(([low_Hz, high_Hz]) => {
    const long = duration_s * low_Hz >= 2 * (1 - 1e-9);
    if (!long || !(mean > 0) || rate_Hz / 2 <= low_Hz) return { low_Hz, high_Hz, ripple_ratio: null };
    const first = Math.max(1, Math.ceil(low_Hz * duration_s - edgeSlack_bins));
    const last = Math.min(Math.ceil(high_Hz * duration_s - edgeSlack_bins) - 1, Math.floor((n - 1) / 2));
    const ripple = last < first ? 0 : peakToPeakOfBins(X, n, first, last);
    return { low_Hz, high_Hz, ripple_ratio: ripple / mean };
  });
}

/** Peak to peak of the content of bins first … last of the spectrum X of n samples. */
export function peakToPeakOfBins(X: Float64Array, n: number, first: number, last: number): number {
  let grid = 2;
  while (grid < pointsPerCycle * last) grid *= 2;
  while (grid > gridLimit && grid > 8 * last) grid /= 2;
  const Y = new Float64Array(2 * grid);
  // The real part of the one-sided sum doubled is the real wave; scaled from n samples to the grid.
  for (let k = first; k <= last; k++) {
    Y[2 * k] = (2 * X[2 * k]! * grid) / n;
    Y[2 * k + 1] = (2 * X[2 * k + 1]! * grid) / n;
  }
  const y = inverse(Y);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < grid; j++) {
    const value = y[2 * j]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}
