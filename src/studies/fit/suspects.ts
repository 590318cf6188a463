import { Matrix, solve } from 'ml-matrix';
import type { Adjusted } from './adjusted.ts';

/** A parameter that was not fitted and would explain a part of what is left. */
export interface Suspect {
  readonly path: string;
  /** Share of the sum of squares that it would take away, to first order. */
  readonly explains_ratio: number;
}

/** Less than this explains nothing. */
const leastShare = 0.1;
const mostNamed = 3;
/** Step of the box by which a suspect is tried. */
const step = 0.1;

/**
 * Which parameters would explain a misfit: each is moved once, and what its effect has in common with the rest, beyond
 * what the fitted parameters could do themselves, is the part it would take away.
 */
export async function suspectsOf(
  candidates: readonly Adjusted[],
  left: Float64Array,
  fitted: Matrix,
  leftWith: (candidate: Adjusted, value: number) => Promise<Float64Array>,
): Promise<Suspect[]> {
  const all = dot(left, left);
  const suspects: Suspect[] = [];
  for (const candidate of candidates) {
    const { start, low, high } = candidate;
    const away = (start - low) / (high - low) < 0.5 ? step : -step;
    const moved = await leftWith(candidate, start + away * (high - low));
    const effect = without(
      moved.map((e, i) => e - left[i]!),
      fitted,
    );
    const size = dot(effect, effect);
    const explains_ratio = size > 1e-9 * left.length ? dot(effect, left) ** 2 / size / all : 0;
    if (explains_ratio >= leastShare) suspects.push({ path: candidate.path, explains_ratio });
  }
  return suspects.sort((a, b) => b.explains_ratio - a.explains_ratio).slice(0, mostNamed);
}

/** What of a vector the columns of J cannot make. */
function without(vector: Float64Array, J: Matrix): Float64Array {
  const column = Matrix.columnVector(vector);
  const shares = solve(J.transpose().mmul(J), J.transpose().mmul(column), true);
  return Float64Array.from(Matrix.sub(column, J.mmul(shares)).to1DArray());
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
