/**
 * Stamps that lie closer are one [s]: a thousandth of a picosecond. What is left of a cut exponent can be 1e-195, which
 * no sum of times keeps apart from 0.
 */
const sameStamp_s = 1e-15;

/**
 * Merges samples of one stamp to the mean of their values, in place; `count` samples by rising stamps. `count` of those
 * left, and how many were merged although their values differ.
 */
export function onePerStamp(
  t: Float64Array,
  values: Float64Array,
  count: number,
): { readonly count: number; readonly conflicts: number } {
  let merged = 0;
  let conflicts = 0;
  for (let i = 0; i < count; ) {
    const first = values[i]!;
    let sum = 0;
    let j = i;
    for (; j < count && t[j]! - t[i]! < sameStamp_s; j++) {
      sum += values[j]!;
      if (values[j] !== first) conflicts++;
    }
    t[merged] = t[i]!;
    values[merged] = j - i === 1 ? first : sum / (j - i);
    merged++;
    i = j;
  }
  return { count: merged, conflicts };
}
