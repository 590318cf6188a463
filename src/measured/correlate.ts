/** How well measured samples agree with a simulated stream when they are laid at a time of the run. */
import type { Stream } from '../engine/result.ts';
import type { MeasuredColumn } from './measurement.ts';
import { simulatedAt } from './simulated-at.ts';

/** Most measured samples that are compared: evenly chosen where there are more. */
const mostSamples = 3000;
/** Share of the samples compared that must lie within the run. */
const leastOverlap = 0.5;

export interface Sample {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
}

export function chosen({ time_s, values }: Pick<MeasuredColumn, 'time_s' | 'values'>): Sample {
  const per = Math.max(1, Math.ceil(time_s.length / mostSamples));
  const n = Math.ceil(time_s.length / per);
  return {
    time_s: Float64Array.from({ length: n }, (_, i) => time_s[i * per]!),
    values: Float64Array.from({ length: n }, (_, i) => values[i * per]!),
  };
}

/** The top near `at_s`: the best of seven places about it, again and again in a third of the step. */
export function climb(f: (at_s: number) => number, at_s: number, step_s: number) {
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

/** Σ(ds/dt)² at the samples that lie within the run. */
export function slopes({ time_s }: Sample, stream: Stream, at_s: number): number {
  const h = 0.5 / stream.rate_Hz;
  let sum = 0;
  for (const t of time_s) {
    const rise = simulatedAt(stream, t + at_s + h) - simulatedAt(stream, t + at_s - h);
    if (!Number.isNaN(rise)) sum += (rise / (2 * h)) ** 2;
  }
  return sum;
}

/** Correlation coefficient where the measurement begins at `at_s`; 0 where too little of it lies within the run. */
export function correlationAt({ time_s, values }: Sample, stream: Stream, at_s: number): number {
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
