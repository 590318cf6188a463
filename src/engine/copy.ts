import type { Int } from '../int.ts';

/** Writes the first `count` values of one column into another. */
export function copy(to: Float64Array, from: Float64Array, count: Int): void {
  for (let k = 0; k < count; k++) to[k] = from[k]!;
}
