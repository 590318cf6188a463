/** Loop gain from what closed loops answer: of a unit put in at break k, H_ik comes back at break i, L = −H (I + H)⁻¹. */
import { scaled } from '../complex.ts';
import { type ComplexMatrix, inverseOf, plusIdentity, product } from '../complex-matrix.ts';

export function openedLoop(H: ComplexMatrix): ComplexMatrix {
  return product(H, inverseOf(plusIdentity(H, 1))).map((row) => row.map((a) => scaled(a, -1)));
}
