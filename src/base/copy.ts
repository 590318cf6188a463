import type { Int } from './int.ts';

/** Writes one column of `count` values over another. The compiled kernel, where columns know no length, needs the count. */
export function copy(to: Float64Array, from: Float64Array, count: Int): void {
  if (from.length !== count) throw new RangeError(`a column of ${from.length} values, not ${count}`);
  to.set(from);
}
