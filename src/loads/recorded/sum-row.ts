/** A sum of rounded powers agrees with the sum of them all to this share. */
const agrees_ratio = 1e-4;
/** So many samples before it, and so far above all of them: no load does both by chance. */
const fewest = 5;
const above_ratio = 3;

/** A sentence where the last sample is the sum of those before it: a line of totals that was stamped like a sample. */
export function sumRow(name: string, values: Float64Array, written: (value: number) => string): string[] {
  const last = values.length - 1;
  if (last < fewest) return [];
  let sum = 0;
  let highest = 0;
  for (let i = 0; i < last; i++) {
    sum += values[i]!;
    highest = Math.max(highest, values[i]!);
  }
  const total = values[last]!;
  if (total < above_ratio * highest || Math.abs(total - sum) > agrees_ratio * sum) return [];
  return [
    `The last sample of ${name}, ${written(total)}, is the sum of all those before it: a line of totals, taken as a sample.`,
  ];
}
