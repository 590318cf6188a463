import { formatQuantity } from '../../base/quantity.ts';
import type { Series } from './series.ts';

/** A sum of rounded powers agrees with the sum of them all to this share. */
const agrees_ratio = 1e-4;
/** So many samples before it, and so far above all of them: no load does both by chance. */
const fewest = 5;
const above_ratio = 3;

/** A sentence where the last sample is the sum of those before it: a line of totals that was stamped like a sample. */
export function sumRow(name: string, { power_W }: Series): string[] {
  const last = power_W.length - 1;
  if (last < fewest) return [];
  let sum_W = 0;
  let highest_W = 0;
  for (let i = 0; i < last; i++) {
    sum_W += power_W[i]!;
    highest_W = Math.max(highest_W, power_W[i]!);
  }
  const total_W = power_W[last]!;
  if (total_W < above_ratio * highest_W || Math.abs(total_W - sum_W) > agrees_ratio * sum_W) return [];
  return [
    `The last sample of ${name}, ${formatQuantity(total_W, 'power', 4)}, is the sum of all those before it: a line of totals, taken as a sample.`,
  ];
}
