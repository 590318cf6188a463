/** The beat of a load that does not repeat exactly: the lag at which it looks most like itself. */

/** A lag counts as a period when the load there keeps this much of its own variance. */
const likeness_ratio = 0.5;
const longest_s = 10;
const shortest_s = 0.1;

/**
 * First lag at which the autocorrelation of the means has a local maximum above half, between 0.1 and 10 s
 * and at most a third of the record; null where there is none or the load is flat.
 * r(k) = Σ (x_j − m)(x_{j+k} − m) / Σ (x_j − m)², scaled by n/(n − k) for the shorter overlap.
 */
export function loadPeriod(means: Float64Array, width_s: number): number | null {
  const n = means.length;
  const most = Math.min(Math.floor(longest_s / width_s), Math.floor(n / 3));
  let mean = 0;
  for (let j = 0; j < n; j++) mean += means[j]! / n;
  let variance = 0;
  for (let j = 0; j < n; j++) variance += (means[j]! - mean) * (means[j]! - mean);
  // A load that moves by less than a thousandth of its mean has no beat worth naming.
  if (!(variance > n * (1e-3 * mean) * (1e-3 * mean))) return null;
  const r = new Float64Array(most + 2);
  for (let k = 0; k <= Math.min(most + 1, n - 1); k++) {
    let sum = 0;
    for (let j = 0; j + k < n; j++) sum += (means[j]! - mean) * (means[j + k]! - mean);
    r[k] = (sum / variance) * (n / (n - k));
  }
  let best: number | null = null;
  let wasLow = false;
  for (let k = 1; k <= most; k++) {
    // Past the first hollow: before it every smooth load looks like itself.
    if (r[k]! < likeness_ratio / 2) wasLow = true;
    if (!wasLow || k * width_s < shortest_s || r[k]! < likeness_ratio) continue;
    if (r[k]! >= r[k - 1]! && r[k]! > r[k + 1]!) {
      if (best === null || r[k]! > 1.1 * r[best]!) best = k;
    }
  }
  return best === null ? null : best * width_s;
}
