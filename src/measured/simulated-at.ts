import type { Stream } from '../engine/result.ts';

/** Samples that a value between them is taken from. */
const points = 8;

/** Lagrange's weights without the distances: (−1)^(7−j)/(j! (7−j)!). */
const weights = Float64Array.from({ length: points }, (_, j) => {
  let product = 1;
  for (let k = 0; k < points; k++) if (k !== j) product *= j - k;
  return 1 / product;
});

/**
 * Simulated value at a time of the run: the polynomial through the eight samples about it (Lagrange), which follows
 * what a stream shows up to 300 Hz to 1 %; a straight line would cut every edge. NaN outside the stream.
 */
export function simulatedAt({ samples, rate_Hz, from_s }: Stream, time_s: number): number {
  // Sample k is the middle of its millisecond.
  return between(samples, (time_s - from_s) * rate_Hz - 0.5);
}

/** The same by place: 0 is the first sample, 1.5 half-way from the second to the third. */
export function between(samples: Float64Array, x: number): number {
  const i = Math.floor(x);
  const n = samples.length;
  if (!(i >= 0 && i + 1 < n)) return Number.NaN;
  if (n < points) return samples[i]! + (samples[i + 1]! - samples[i]!) * (x - i);
  const first = Math.min(Math.max(0, i - points / 2 + 1), n - points);
  const u = x - first;
  const on = Math.round(u);
  if (Math.abs(u - on) < 1e-9) return samples[first + on]!;
  let whole = 1;
  let sum = 0;
  for (let j = 0; j < points; j++) {
    whole *= u - j;
    sum += (weights[j]! * samples[first + j]!) / (u - j);
  }
  return whole * sum;
}

/** Its slope [unit/s], by a central difference over half a sample. */
export function slopeAt(stream: Stream, time_s: number): number {
  const h = 0.25 / stream.rate_Hz;
  return (simulatedAt(stream, time_s + h) - simulatedAt(stream, time_s - h)) / (2 * h);
}
