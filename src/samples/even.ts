/** Even samples of a curve given at uneven stamps, on the straight lines between them; flat beyond its ends. */
export function evenSamples(
  time_s: Float64Array,
  values: ArrayLike<number>,
  from_s: number,
  interval_s: number,
  count: number,
): Float64Array {
  const out = new Float64Array(count);
  const n = time_s.length;
  let i = 0;
  for (let k = 0; k < count; k++) {
    const t = from_s + k * interval_s;
    while (i + 2 < n && time_s[i + 1]! <= t) i++;
    if (n === 1 || t <= time_s[0]!) out[k] = values[0]!;
    else if (t >= time_s[n - 1]!) out[k] = values[n - 1]!;
    else {
      const t0 = time_s[i]!;
      out[k] = values[i]! + (values[i + 1]! - values[i]!) * ((t - t0) / (time_s[i + 1]! - t0));
    }
  }
  return out;
}
