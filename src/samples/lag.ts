/** Where two curves agree best in time. */
export interface Lag {
  /** `b` shows what `a` shows, this much later [s]. */
  readonly lag_s: number;
  readonly correlation_ratio: number;
  /** 1 where nothing else comes near, 0 where another lag (more than the width of the peak away) does as well. */
  readonly confidence_ratio: number;
}

/** Most points of a curve that are compared: beyond it the middle part stands for the whole. */
const mostPoints = 20_000;

/**
 * Lag of `b` against `a` (even samples of the same interval) by the highest correlation coefficient within
 * ±`reach` samples, refined by a parabola through the peak and its neighbours. null where either is flat.
 */
export function lagOf(a: Float64Array, b: Float64Array, interval_s: number, reach: number): Lag | null {
  const n = Math.min(a.length, b.length, mostPoints);
  const at = Math.floor((Math.min(a.length, b.length) - n) / 2);
  const most = Math.min(reach, Math.floor(n / 3));
  if (most < 1) return null;
  const r = correlations(a.subarray(at, at + n), b.subarray(at, at + n), most);
  let best = 0;
  for (let i = 0; i < r.length; i++) if (r[i]! > r[best]!) best = i;
  const peak = r[best]!;
  if (!(peak > 0)) return null;
  // The peak's own hill: down to where the curve turns up again on either side.
  let left = best;
  while (left > 0 && r[left - 1]! < r[left]!) left--;
  let right = best;
  while (right < r.length - 1 && r[right + 1]! < r[right]!) right++;
  let elsewhere = 0;
  for (let i = 0; i < r.length; i++) if ((i < left || i > right) && r[i]! > elsewhere) elsewhere = r[i]!;
  const edge = best === 0 || best === r.length - 1;
  const bend = edge ? 0 : r[best - 1]! - 2 * peak + r[best + 1]!;
  const part = bend < 0 ? (0.5 * (r[best - 1]! - r[best + 1]!)) / bend : 0;
  return {
    lag_s: (best - most + part) * interval_s,
    correlation_ratio: peak,
    confidence_ratio: edge ? 0 : 1 - elsewhere / peak,
  };
}

/** Correlation coefficients of a(t) with b(t + k), for k from −most to most; both are of one length. */
export function correlations(a: Float64Array, b: Float64Array, most: number): Float64Array {
  return Float64Array.from({ length: 2 * most + 1 }, (_, i) => correlation(a, b, i - most));
}

/** Over the span that both have. */
function correlation(a: Float64Array, b: Float64Array, k: number): number {
  const n = a.length;
  const from = Math.max(0, -k);
  const to = Math.min(n, n - k);
  let sa = 0;
  let sb = 0;
  for (let i = from; i < to; i++) {
    sa += a[i]!;
    sb += b[i + k]!;
  }
  const ma = sa / (to - from);
  const mb = sb / (to - from);
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let i = from; i < to; i++) {
    const x = a[i]! - ma;
    const y = b[i + k]! - mb;
    saa += x * x;
    sbb += y * y;
    sab += x * y;
  }
  return saa > 0 && sbb > 0 ? sab / Math.sqrt(saa * sbb) : 0;
}
