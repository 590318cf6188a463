import type { Stream } from '../engine/result.ts';
import { chosen, climb, correlationAt, slopes } from './correlate.ts';
import type { MeasuredColumn } from './measurement.ts';
import { noiseOf } from './noise.ts';

/** Where a measurement lies on the clock of the run. */
export interface Place {
  /** Time of the run at the file's first stamp [s]. */
  readonly at_s: number;
  readonly correlation_ratio: number;
  /** 1 where no other place comes near, 0 where another does as well. */
  readonly confidence_ratio: number;
  /** Standard error of the place that the noise leaves: noise/√Σ(ds/dt)² over the samples [s]. */
  readonly error_s: number;
}

/** Places tried first, and how many of the best of them are looked at closely. */
const coarsePlaces = 6000;
const closely = 5;

/**
 * The place at which a measured curve agrees best with the simulated one, by their correlation coefficient at the
 * measured stamps: first on a coarse grid, then, about the best of it, in ever finer steps, at last by a parabola.
 * null where either is flat.
 */
export function placeOf(measured: MeasuredColumn, stream: Stream): Place | null {
  const sample = chosen(measured);
  const span_s = stream.samples.length / stream.rate_Hz;
  const length_s = sample.time_s.at(-1)! - sample.time_s[0]!;
  const first_s = stream.from_s - length_s - sample.time_s[0]!;
  const step_s = Math.max(1 / stream.rate_Hz, (span_s + length_s) / coarsePlaces);
  const count = Math.ceil((span_s + length_s) / step_s);
  const coarse = Float64Array.from({ length: count }, (_, k) =>
    correlationAt(sample, stream, first_s + k * step_s),
  );
  let best: { readonly at_s: number; readonly r: number; readonly k: number } | null = null;
  for (const k of hills(coarse)) {
    const found = climb((at_s) => correlationAt(sample, stream, at_s), first_s + k * step_s, step_s);
    if (best === null || found.r > best.r) best = { ...found, k };
  }
  if (best === null || !(best.r > 0)) return null;
  return {
    at_s: best.at_s,
    correlation_ratio: best.r,
    confidence_ratio: confidenceOf(coarse, best.k, best.r),
    error_s: noiseOf(measured.values) / Math.sqrt(slopes(sample, stream, best.at_s)),
  };
}

/** The places of the highest local maxima, highest first. */
function hills(r: Float64Array): number[] {
  const tops: number[] = [];
  for (let k = 0; k < r.length; k++) {
    if (r[k]! > 0 && r[k]! >= (r[k - 1] ?? 0) && r[k]! >= (r[k + 1] ?? 0)) tops.push(k);
  }
  return tops.sort((a, b) => r[b]! - r[a]!).slice(0, closely);
}

/** How far the highest place outside the top's own hill stays below it. */
function confidenceOf(r: Float64Array, best: number, top: number): number {
  // Noise roughens the hill: a rise by less than this share of its height does not end it.
  const slack = 0.02 * top;
  const foot = (step: 1 | -1): number => {
    let end = best;
    let lowest = r[best]!;
    for (let i = best + step; i >= 0 && i < r.length && r[i]! <= lowest + slack; i += step) {
      lowest = Math.min(lowest, r[i]!);
      end = i;
    }
    return end;
  };
  const [left, right] = [foot(-1), foot(1)];
  let elsewhere = 0;
  for (let i = 0; i < r.length; i++) if ((i < left || i > right) && r[i]! > elsewhere) elsewhere = r[i]!;
  return Math.max(0, 1 - elsewhere / top);
}
