/** The lowest mean over any stretch of `length` values, or over all of them where there are fewer; null without values. */
export function lowestMean(
  values: Float64Array,
  length: number,
): { readonly mean: number; readonly start: number } | null {
  const n = Math.min(Math.max(1, length), values.length);
  if (n === 0) return null;
  const upTo = new Float64Array(values.length + 1);
  for (let j = 0; j < values.length; j++) upTo[j + 1] = upTo[j]! + values[j]!;
  let least = { mean: Number.POSITIVE_INFINITY, start: 0 };
  for (let j = 0; j + n <= values.length; j++) {
    const mean = (upTo[j + n]! - upTo[j]!) / n;
    if (mean < least.mean) least = { mean, start: j };
  }
  return least;
}
