import { medianOf } from './quantile.ts';

/** Power against time: stamps rising strictly, straight lines between them. */
export interface Series {
  readonly time_s: Float64Array;
  readonly power_W: Float64Array;
}

/** Energy by the trapezoid rule on the series' own stamps [J]: exact for straight lines between them. */
export function trapezoid_J(time_s: ArrayLike<number>, power_W: ArrayLike<number>): number {
  let energy = 0;
  for (let i = 1; i < time_s.length; i++) {
    energy += 0.5 * (power_W[i]! + power_W[i - 1]!) * (time_s[i]! - time_s[i - 1]!);
  }
  return energy;
}

export function endOf({ time_s }: Series): number {
  return time_s[time_s.length - 1]!;
}

/** The part from `from_s` to `to_s`, with a sample put on each end by the straight line. Both must lie inside. */
export function cut(series: Series, from_s: number, to_s: number): Series {
  const { time_s, power_W } = series;
  const n = time_s.length;
  if (from_s < time_s[0]! || to_s > time_s[n - 1]! || from_s >= to_s) {
    throw new RangeError(`cut from ${from_s} to ${to_s} of ${time_s[0]} to ${time_s[n - 1]}`);
  }
  const first = firstAbove(time_s, from_s);
  let last = firstAbove(time_s, to_s) - 1;
  while (time_s[last]! >= to_s) last--;
  const inner = Math.max(0, last - first + 1);
  const t = new Float64Array(inner + 2);
  const p = new Float64Array(inner + 2);
  t[0] = from_s;
  p[0] = between(series, first - 1, from_s);
  t.set(time_s.subarray(first, first + inner), 1);
  p.set(power_W.subarray(first, first + inner), 1);
  t[inner + 1] = to_s;
  p[inner + 1] = between(series, last, to_s);
  return { time_s: t, power_W: p };
}

/** Index of the first stamp above `t`. */
export function firstAbove(time_s: Float64Array, t: number): number {
  let low = 0;
  let high = time_s.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (time_s[middle]! <= t) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Value at `t` on the straight line from sample i to the next. */
export function between(series: Series, i: number, t: number): number {
  const { time_s, power_W } = series;
  const t0 = time_s[i]!;
  const v0 = power_W[i]!;
  if (t === t0) return v0;
  return v0 + (power_W[i + 1]! - v0) * ((t - t0) / (time_s[i + 1]! - t0));
}

/** Median of the distances between neighbouring stamps [s]. */
export function medianInterval_s(time_s: Float64Array): number {
  return medianOf(time_s.length - 1, (i) => time_s[i + 1]! - time_s[i]!);
}
