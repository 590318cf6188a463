/** Ramps of the AC power as a trace on the grid of the run's window means, as they are judged: one value a moment. */
import type { WindowMeans } from '../../src/engine/result.ts';
import type { Span } from '../../src/events/spans.ts';
import type { Band, Buckets } from '../series.ts';

export interface Ramps extends Buckets {
  readonly window_s: number;
  /** One bucket for each moment of the grid, about it. */
  readonly series: Band;
  /** First and last moment: elsewhere no two windows fit and there is no ramp, which is not a ramp of 0. */
  readonly fits: Span;
  readonly width_s: number;
}

/**
 * (mean of the window after t − mean of the window before t) / window, as `analysis/signal/ramp.ts` judges it. null
 * where no two windows fit. Buckets of the record would smear a jump over times in which it is not seen.
 */
export function rampsOver(means: WindowMeans, window_s: number): Ramps | null {
  const { from_s, width_s } = means;
  const power = means.columns.get('total.ac_power_W');
  const w = Math.round(window_s / width_s);
  if (power === undefined || power.length < 2 * w) return null;
  const sums = new Float64Array(power.length + 1);
  for (let j = 0; j < power.length; j += 1) sums[j + 1] = sums[j]! + power[j]!;
  const count = power.length - 2 * w + 1;
  const values = new Float32Array(count);
  const edges_s = new Float64Array(count + 1);
  const moments_s = new Float64Array(count);
  for (let k = 0; k <= count; k += 1) {
    const j = k + w;
    edges_s[k] = from_s + (j - 0.5) * width_s;
    if (k === count) break;
    moments_s[k] = from_s + j * width_s;
    values[k] = (sums[j + w]! - 2 * sums[j]! + sums[j - w]!) / (w * w * width_s);
  }
  const fits = { from_s: from_s + w * width_s, to_s: from_s + (power.length - w) * width_s };
  return { window_s, edges_s, moments_s, series: { min: values, max: values }, fits, width_s };
}

/** The place of the ramp nearest to a moment. */
export function rampPlace({ series, fits, width_s }: Ramps, time_s: number): number {
  const place = Math.round((time_s - fits.from_s) / width_s);
  return Math.min(series.min.length - 1, Math.max(0, place));
}

/** The steepest ramp from one moment to another, with its sign; the nearest one where none lies between. */
export function steepest(ramps: Ramps, from_s: number, to_s: number): number {
  const [low, high] = rampsWithin(ramps, [{ from_s, to_s }]) ?? [
    0,
    ramps.series.min[rampPlace(ramps, from_s)]!,
  ];
  return -low > high ? low : high;
}

/** Lowest and highest ramp within stretches of time, their ends included; null where there is none. */
export function rampsWithin(ramps: Ramps, spans: readonly Span[]): [number, number] | null {
  const { series, fits, width_s } = ramps;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { from_s, to_s } of spans) {
    const first = Math.max(0, Math.ceil((from_s - fits.from_s) / width_s - 1e-6));
    const last = Math.min(series.min.length - 1, Math.floor((to_s - fits.from_s) / width_s + 1e-6));
    for (let k = first; k <= last; k += 1) {
      const ramp = series.min[k]!;
      if (ramp < low) low = ramp;
      if (ramp > high) high = ramp;
    }
  }
  return low <= high ? [low, high] : null;
}
