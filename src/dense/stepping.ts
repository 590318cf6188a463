/**
 * Steps of the trapezoid through the factors of one matrix, operation by operation. Text of the compiled form
 * (`kernel.ts`); as it stands, the plain one.
 */
import type { Int } from '../base/int.ts';

/**
 * So many steps of z ← 2 (I − qA)⁻¹ (z + push) − z in place, n numbers each, I − qA = L U with rows and columns in orders of
 * their own: `rows` and `columns` tell which. Factors stand row by row, of L from the first row on and then of U from the last
 * one back, each over the diagonal of its column; `ends` holds where each of these rows ends among them, and `sources` the
 * unknown that each multiplies. `twice` is 2 over the diagonal. `w` is for the way.
 */
export function takeSteps(
  z: Float64Array,
  push: Float64Array,
  w: Float64Array,
  n: Int,
  steps: Int,
  rows: Int32Array,
  columns: Int32Array,
  ends: Int32Array,
  sources: Int32Array,
  factors: Float64Array,
  twice: Float64Array,
): void {
  for (let step = 0; step < steps; step++) {
    let p: Int = 0;
    for (let k = 0; k < n; k++) {
      const row: Int = rows[k]!;
      const end: Int = ends[k]!;
      let x = z[row]! + push[row]!;
      while (p < end) {
        const source: Int = sources[p]!;
        x -= factors[p]! * w[source]!;
        p++;
      }
      w[k] = x;
    }
    for (let j = 0; j < n; j++) {
      const k: Int = n - 1 - j;
      const column: Int = columns[k]!;
      const end: Int = ends[n + j]!;
      let x = w[k]!;
      while (p < end) {
        const source: Int = sources[p]!;
        x -= factors[p]! * w[source]!;
        p++;
      }
      w[k] = x;
      z[column] = twice[k]! * x - z[column]!;
    }
  }
}
