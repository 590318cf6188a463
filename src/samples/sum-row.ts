/** A sum of rounded values agrees with the sum of them all to this share. */
const agrees_ratio = 1e-4;
/** So many samples beside it, and so far above all of them: no measurement does both by chance. */
const fewest = 5;
const above_ratio = 3;

/** A sentence where the last or the first sample is the sum of all others: a line of totals that was stamped like a sample. */
export function sumRow(name: string, values: Float64Array, written: (value: number) => string): string[] {
  const end = values.length - 1;
  return [
    { at: end, which: 'last', others: 'all those before it' },
    { at: 0, which: 'first', others: 'all those behind it' },
  ].flatMap(({ at, which, others }) =>
    isSum(values, at)
      ? [
          `The ${which} sample of ${name}, ${written(values[at]!)}, is the sum of ${others}: a line of totals, taken as a sample.`,
        ]
      : [],
  );
}

function isSum(values: Float64Array, at: number): boolean {
  if (values.length <= fewest) return false;
  const total = values[at]!;
  let sum = 0;
  let highest = 0;
  for (let i = 0; i < values.length; i++) {
    if (i === at) continue;
    sum += values[i]!;
    highest = Math.max(highest, values[i]!);
  }
  return total >= above_ratio * highest && Math.abs(total - sum) <= agrees_ratio * sum;
}
