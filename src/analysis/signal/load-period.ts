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
  const swing = means.map((x) => x - mean);
  const lags = Math.min(most + 1, n - 1) + 1;
  for (let k = 0; k < lags; k += 4) {
    const sums = fourLags(swing, k);
    for (let i = 0; i < Math.min(4, lags - k); i++) r[k + i] = (sums[i]! / variance) * (n / (n - k - i));
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

/** Σ x_j x_(j+k) of four lags from k on: beside each other, for each sum alone waits for its last addition. */
function fourLags(x: Float64Array, k: number): readonly [number, number, number, number] {
  const n = x.length;
  let [a, b, c, d] = [0, 0, 0, 0];
  // Past the end there is nothing to add.
  const whole = Math.max(0, n - k - 3);
  for (let j = 0; j < whole; j++) {
    const here = x[j]!;
    a += here * x[j + k]!;
    b += here * x[j + k + 1]!;
    c += here * x[j + k + 2]!;
    d += here * x[j + k + 3]!;
  }
  for (let j = whole; j + k < n; j++) {
    const here = x[j]!;
    a += here * x[j + k]!;
    if (j + k + 1 < n) b += here * x[j + k + 1]!;
    if (j + k + 2 < n) c += here * x[j + k + 2]!;
  }
  return [a, b, c, d];
}
