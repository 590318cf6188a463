/**
 * Steps of the trapezoid through the factors of one matrix, operation by operation. Text of the compiled form
 * (`kernel.ts`); as it stands, the plain one.
 */
import type { Int } from '../base/int.ts';

/**
 * So many steps of z ← 2 (I − qA)⁻¹ (z + push) − z in place, n numbers each, I − qA = L U with rows and columns in orders of
 * their own: `rows` and `columns` tell which. `places` holds a target and a source for each of `count` factors, those of
 * L first and then those of U, each over the diagonal of its column; `twice` is 2 over that diagonal. `w` is for the way.
 */
export function takeSteps(
  z: Float64Array,
  push: Float64Array,
  w: Float64Array,
  n: Int,
  steps: Int,
  rows: Int32Array,
  columns: Int32Array,
  places: Int32Array,
  factors: Float64Array,
  count: Int,
  twice: Float64Array,
): void {
  for (let step = 0; step < steps; step++) {
    for (let k = 0; k < n; k++) {
      const row: Int = rows[k]!;
      w[k] = z[row]! + push[row]!;
    }
    for (let p = 0; p < count; p++) {
      const target: Int = places[2 * p]!;
      const source: Int = places[2 * p + 1]!;
      w[target]! -= factors[p]! * w[source]!;
    }
    for (let k = 0; k < n; k++) {
      const column: Int = columns[k]!;
      z[column] = twice[k]! * w[k]! - z[column]!;
    }
  }
}
