/** Mean and straight line of uniform samples. */

export function meanOf(samples: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < samples.length; j++) sum += samples[j]!;
  return samples.length === 0 ? Number.NaN : sum / samples.length;
}

export function withoutMean(samples: Float64Array): Float64Array {
  return takeMean(Float64Array.from(samples));
}

/**
 * The samples without the straight line through their first and last, and without what mean is left. A
 * spectrum takes a stretch as if it went on in a circle: ends that meet make no jump, and a jump would leak
 * into every band. (A least-squares line leaves the ends apart wherever a stretch cuts a swing.)
 */
export function withoutLine(samples: Float64Array): Float64Array {
  const n = samples.length;
  const rest = new Float64Array(n);
  if (n < 2) return rest;
  const first = samples[0]!;
  const slope = (samples[n - 1]! - first) / (n - 1);
  for (let j = 0; j < n; j++) rest[j] = samples[j]! - first - slope * j;
  return takeMean(rest);
}

/** In place. */
function takeMean(samples: Float64Array): Float64Array {
  const mean = meanOf(samples);
  for (let j = 0; j < samples.length; j++) samples[j]! -= mean;
  return samples;
}
