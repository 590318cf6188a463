/** Values at every moment, on the straight lines between those of some. */

/** `values` stand at the places `kept` of `time_s`, the first and the last among them. */
export function along(
  time_s: Float64Array,
  kept: readonly number[],
  values: Float32Array,
): Float32Array<ArrayBuffer> {
  const all = new Float32Array(time_s.length);
  kept.forEach((to, k) => {
    all[to] = values[k]!;
    const from = k === 0 ? to : kept[k - 1]!;
    const slope = (values[k]! - (values[k - 1] ?? 0)) / (time_s[to]! - time_s[from]!);
    for (let m = from + 1; m < to; m += 1) all[m] = values[k - 1]! + slope * (time_s[m]! - time_s[from]!);
  });
  return all;
}
