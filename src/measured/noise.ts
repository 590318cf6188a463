import { medianOf } from '../loads/recorded/quantile.ts';

/**
 * Noise of a column from its second differences, whose standard deviation is √6 of it; by their median, so that
 * edges do not count. At least the resolution over √12, or a millionth of the swing.
 */
export function noiseOf(values: Float64Array): number {
  const n = values.length;
  const { largest, swing, resolution } = grainOf(values);
  const bend = (i: number): number => Math.abs(values[i]! - 2 * values[i + 1]! + values[i + 2]!);
  const median = n < 3 ? 0 : medianOf(n - 2, bend);
  const least = Math.max(finest * swing, 1e-9 * largest, 1e-12);
  // 0.6745: median of the absolute value of a normal number.
  const noise = median / 0.6745 / Math.sqrt(6);
  return Math.max(noise, resolution, least);
}

/** What solvers and digits leave between two records of the same run, over its swing. */
const finest = 1e-6;
/** RMS of rounding, over its step/√12, that steps which come together may have. */
const rounded = 1.3;

/** Below this RMS what is left of a column is rounding, whose pattern tells nothing of a model. */
export function roundingOf(values: Float64Array): number {
  const { swing, resolution } = grainOf(values);
  return Math.max(finest * swing, rounded * resolution);
}

/** `resolution`: RMS of rounding to the smallest step from one sample to the next. */
function grainOf(values: Float64Array): { largest: number; swing: number; resolution: number } {
  let [low, high, step] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    low = Math.min(low, values[i]!);
    high = Math.max(high, values[i]!);
    const d = i > 0 ? Math.abs(values[i]! - values[i - 1]!) : 0;
    if (d > 0 && d < step) step = d;
  }
  const swing = high - low;
  const resolution = Number.isFinite(step) ? Math.min(step / Math.sqrt(12), 0.1 * swing) : 0;
  return { largest: Math.max(Math.abs(low), Math.abs(high)), swing, resolution };
}
