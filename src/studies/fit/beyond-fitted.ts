/** What of an effect the fitted parameters cannot do themselves, to first order. */
import { Matrix, solve } from 'ml-matrix';

/** How the fitted values would follow a change of the residuals to undo it, (JᵀJ)⁻¹Jᵀe. */
export function followedBy(effect: Float64Array, J: Matrix): number[] {
  const column = Matrix.columnVector(effect);
  return solve(J.transpose().mmul(J), J.transpose().mmul(column), true).to1DArray();
}

/** e − J(JᵀJ)⁻¹Jᵀe. */
export function beyondFitted(effect: Float64Array, J: Matrix): Float64Array {
  const by = followedBy(effect, J);
  return effect.map((e, i) => by.reduce((left, move, j) => left - J.get(i, j) * move, e));
}
