/** Mean and straight line of uniform samples. */
import type { Samples } from './samples.ts';

export function meanOf(samples: Samples): number {
  let sum = 0;
  for (let j = 0; j < samples.length; j++) sum += samples.at(j)!;
  return samples.length === 0 ? Number.NaN : sum / samples.length;
}

export function withoutMean(samples: Float64Array): Float64Array {
  const mean = meanOf(samples);
  return samples.map((x) => x - mean);
}

/**
 * The samples without the straight line through their first and last, and without what mean is left. A
 * spectrum takes a stretch as if it went on in a circle: ends that meet make no jump, and a jump would leak
 * into every band. (A least-squares line leaves the ends apart wherever a stretch cuts a swing.)
 */
export function withoutLine(samples: Float64Array): Float64Array {
  const n = samples.length;
  if (n < 2) return new Float64Array(n);
  const first = samples[0]!;
  const slope = (samples[n - 1]! - first) / (n - 1);
  return withoutMean(samples.map((x, j) => x - first - slope * j));
}
