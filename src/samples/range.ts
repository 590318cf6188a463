/** Lowest and highest of some values. */
export function rangeOf(values: Float64Array): { readonly lowest: number; readonly highest: number } {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    if (values[i]! < lowest) lowest = values[i]!;
    if (values[i]! > highest) highest = values[i]!;
  }
  return { lowest, highest };
}
