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

/** The part from `from_s` to `to_s`, with a sample put on each end by the straight line. Both must lie inside. */
export function cut(series: Series, from_s: number, to_s: number): Series {
  const { time_s, power_W } = series;
  const n = time_s.length;
  if (from_s < time_s[0]! || to_s > time_s[n - 1]! || from_s >= to_s) {
    throw new RangeError(`cut from ${from_s} to ${to_s} of ${time_s[0]} to ${time_s[n - 1]}`);
  }
  let first = 0;
  while (time_s[first]! <= from_s) first++;
  let last = n - 1;
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
  const steps = new Float64Array(time_s.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = time_s[i + 1]! - time_s[i]!;
  steps.sort();
  const middle = steps.length >> 1;
  return steps.length % 2 === 1 ? steps[middle]! : 0.5 * (steps[middle - 1]! + steps[middle]!);
}
