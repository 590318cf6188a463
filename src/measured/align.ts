import type { Stream } from '../engine/result.ts';
import type { MeasuredColumn } from './measurement.ts';
import { noiseOf } from './noise.ts';
import { simulatedAt } from './simulated-at.ts';

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
/** Most measured samples that are compared: evenly chosen where there are more. */
const mostSamples = 3000;
/** Share of the samples compared that must lie within the run. */
const leastOverlap = 0.5;

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

interface Sample {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
}

function chosen({ time_s, values }: MeasuredColumn): Sample {
  const per = Math.max(1, Math.ceil(time_s.length / mostSamples));
  const n = Math.ceil(time_s.length / per);
  return {
    time_s: Float64Array.from({ length: n }, (_, i) => time_s[i * per]!),
    values: Float64Array.from({ length: n }, (_, i) => values[i * per]!),
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

/** The top near `at_s`: the best of seven places about it, again and again in a third of the step. */
function climb(f: (at_s: number) => number, at_s: number, step_s: number) {
  let [best, r, step] = [at_s, f(at_s), step_s / 3];
  for (let round = 0; round < 8 && step > 1e-6; round++) {
    const from = best;
    for (let k = -3; k <= 3; k++) {
      const tried = f(from + k * step);
      if (tried > r) [best, r] = [from + k * step, tried];
    }
    step /= 3;
  }
  return { at_s: best, r };
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

/** Σ(ds/dt)² at the samples that lie within the run. */
function slopes({ time_s }: Sample, stream: Stream, at_s: number): number {
  const h = 0.5 / stream.rate_Hz;
  let sum = 0;
  for (const t of time_s) {
    const rise = simulatedAt(stream, t + at_s + h) - simulatedAt(stream, t + at_s - h);
    if (!Number.isNaN(rise)) sum += (rise / (2 * h)) ** 2;
  }
  return sum;
}

/** Correlation coefficient where the measurement begins at `at_s`; 0 where too little of it lies within the run. */
function correlationAt({ time_s, values }: Sample, stream: Stream, at_s: number): number {
  let [n, sa, sb] = [0, 0, 0];
  for (let i = 0; i < time_s.length; i++) {
    const s = simulatedAt(stream, time_s[i]! + at_s);
    if (Number.isNaN(s)) continue;
    n++;
    sa += s;
    sb += values[i]!;
  }
  if (n < Math.max(4, leastOverlap * time_s.length)) return 0;
  let [saa, sbb, sab] = [0, 0, 0];
  for (let i = 0; i < time_s.length; i++) {
    const s = simulatedAt(stream, time_s[i]! + at_s);
    if (Number.isNaN(s)) continue;
    const x = s - sa / n;
    const y = values[i]! - sb / n;
    saa += x * x;
    sbb += y * y;
    sab += x * y;
  }
  // What is flat but for rounding has no shape to compare.
  const flat = (sum: number, squares: number): boolean => squares <= (1e-20 * (sum * sum)) / n;
  return flat(sa, saa) || flat(sb, sbb) ? 0 : sab / Math.sqrt(saa * sbb);
}
