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

/**
 * What is left when the fitted values, from 0 to 1 over their ranges, follow as far as these go: a value that would leave
 * its range stands at its end, and the others follow again.
 */
export function leftWithinRanges(left: Float64Array, J: Matrix, values: readonly number[]): Float64Array {
  let [rest, free] = [left, values.map((_, j) => j)];
  for (;;) {
    if (free.length === 0) return rest;
    const columns = J.subMatrixColumn(free);
    const ends = followedBy(rest, columns).map((move, k) => values[free[k]!]! - move);
    const stopped = free.filter((_, k) => ends[k]! < 0 || ends[k]! > 1);
    if (stopped.length === 0) return beyondFitted(rest, columns);
    for (const j of stopped) {
      const by = (ends[free.indexOf(j)]! < 0 ? 0 : 1) - values[j]!;
      rest = rest.map((e, i) => e + J.get(i, j) * by);
    }
    free = free.filter((j) => !stopped.includes(j));
  }
}
