/** Filters over columns of samples. Text of the compiled form (`kernel.ts`); as it stands, the plain one. */
import type { Int } from '../base/int.ts';
import { cosineOfTurns } from '../base/sine.ts';

/**
 * A column in place through second-order sections in a row, each in transposed direct form: y = b0 x + z1. Of a section
 * `terms` holds b0, b1, b2, a1, a2 and `kept` z1 and z2, which go on from column to column.
 */
export function filter(
  x: Float64Array,
  count: Int,
  terms: Float64Array,
  kept: Float64Array,
  sections: Int,
): void {
  for (let k: Int = 0; k < sections; k++) {
    const b0 = terms[5 * k]!;
    const b1 = terms[5 * k + 1]!;
    const b2 = terms[5 * k + 2]!;
    const a1 = terms[5 * k + 3]!;
    const a2 = terms[5 * k + 4]!;
    let z1 = kept[2 * k]!;
    let z2 = kept[2 * k + 1]!;
    for (let j: Int = 0; j < count; j++) {
      const given = x[j]!;
      const y = b0 * given + z1;
      z1 = b1 * given - a1 * y + z2;
      z2 = b2 * given - a2 * y;
      x[j] = y;
    }
    kept[2 * k] = z1;
    kept[2 * k + 1] = z2;
  }
}

/** x[m] = cos 2πt (from + m): a wave that makes t turns from one sample to the next. */
export function wave(x: Float64Array, count: Int, from: number, turns: number): void {
  for (let m: Int = 0; m < count; m++) x[m] = cosineOfTurns(turns * (from + m));
}
