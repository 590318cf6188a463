import { medianOf } from '../loads/recorded/quantile.ts';

/**
 * Noise of a column from its second differences, whose standard deviation is √6 of it; by their median, so that
 * edges do not count. At least the resolution over √12, or a millionth of the swing.
 */
export function noiseOf(values: Float64Array): number {
  const n = values.length;
  let [low, high, step] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < n; i++) {
    low = Math.min(low, values[i]!);
    high = Math.max(high, values[i]!);
    const d = i > 0 ? Math.abs(values[i]! - values[i - 1]!) : 0;
    if (d > 0 && d < step) step = d;
  }
  const bend = (i: number): number => Math.abs(values[i]! - 2 * values[i + 1]! + values[i + 2]!);
  const median = n < 3 ? 0 : medianOf(n - 2, bend);
  const least = Math.max(1e-6 * (high - low), 1e-9 * Math.max(Math.abs(low), Math.abs(high)), 1e-12);
  const resolution = Number.isFinite(step) ? step / Math.sqrt(12) : 0;
  // 0.6745: median of the absolute value of a normal number.
  const noise = median / 0.6745 / Math.sqrt(6);
  return Math.max(noise, Math.min(resolution, 0.1 * (high - low)), least);
}
