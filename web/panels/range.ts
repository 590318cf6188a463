/** What values an axis holds: those of the whole run until it is fitted to the stretch shown. */
import type { Band } from '../series.ts';

/** Smallest and largest value over a group in a range of buckets. */
export function extentOf(group: readonly Band[], first: number, last: number): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { min, max } of group) {
    for (let b = first; b <= last; b += 1) {
      if (min[b]! < low) low = min[b]!;
      if (max[b]! > high) high = max[b]!;
    }
  }
  return low <= high ? [low, high] : [0, 1];
}

/** With room for what lies at the ends, and never empty. */
export function aired([low, high]: readonly [number, number]): [number, number] {
  if (!(high > low)) return aired([low - 0.5, high + 0.5]);
  const air = 0.04 * (high - low);
  return [low - air, high + air];
}

/** Widened to hold some values besides. */
export function including(
  [low, high]: readonly [number, number],
  values: readonly number[],
): [number, number] {
  return [Math.min(low, ...values), Math.max(high, ...values)];
}
