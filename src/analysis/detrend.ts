/** Mean and straight line of uniform samples. */

export function meanOf(samples: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < samples.length; j++) sum += samples[j]!;
  return samples.length === 0 ? Number.NaN : sum / samples.length;
}

/** The samples without their least-squares straight line, mean included. */
export function withoutLine(samples: Float64Array): Float64Array {
  const n = samples.length;
  const mean = meanOf(samples);
  const centre = (n - 1) / 2;
  let moment = 0;
  let square = 0;
  for (let j = 0; j < n; j++) {
    moment += (j - centre) * (samples[j]! - mean);
    square += (j - centre) * (j - centre);
  }
  const slope = square === 0 ? 0 : moment / square;
  const out = new Float64Array(n);
  for (let j = 0; j < n; j++) out[j] = samples[j]! - mean - slope * (j - centre);
  return out;
}
