/** A range of numbers as whole levels, and back. */

/** The level that says: no number. */
const none = 0xffff;

/** Level q stands for `from + q·step`. */
export interface Scale {
  readonly from: number;
  readonly step: number;
}

/** A scale of so many levels (at most 65,535) over the finite values of columns. */
export function scaleOver(columns: Iterable<ArrayLike<number>>, levels: number): Scale {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const column of columns) {
    for (let k = 0; k < column.length; k += 1) {
      const value = column[k]!;
      if (!Number.isFinite(value)) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  if (low > high) return { from: 0, step: 0 };
  return { from: low, step: (high - low) / (levels - 1) };
}

export type Rounding = 'floor' | 'round' | 'ceil';

/** The column as levels, each value rounded as said; what is no finite number has a level of its own. */
export function levelsOf(column: ArrayLike<number>, { from, step }: Scale, rounding: Rounding): Uint16Array {
  const round = Math[rounding];
  const levels = new Uint16Array(column.length);
  for (let k = 0; k < column.length; k += 1) {
    const value = column[k]!;
    if (!Number.isFinite(value)) levels[k] = none;
    else if (step > 0) levels[k] = Math.min(none - 1, Math.max(0, round((value - from) / step)));
  }
  return levels;
}

/** Writes the column back into `values`; NaN where there was no finite number. */
export function valuesOf<Values extends Float32Array | Float64Array>(
  levels: Uint16Array,
  { from, step }: Scale,
  values: Values,
): Values {
  for (let k = 0; k < levels.length; k += 1)
    values[k] = levels[k] === none ? Number.NaN : from + levels[k]! * step;
  return values;
}
