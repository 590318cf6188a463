import { Matrix, solve } from 'ml-matrix';
import type { Adjusted } from './adjusted.ts';

/** What was not fitted and would explain a part of what is left: a parameter, or the gain, the bias or a delay of a channel. */
export interface Suspect {
  readonly kind: 'parameter' | 'gain' | 'bias' | 'delay';
  /** Path of the parameter, or name of the channel. */
  readonly path: string;
  /** Share of the sum of squares that it would take away, to first order. */
  readonly explains_ratio: number;
}

/** Less than this explains nothing. */
const leastShare = 0.1;
const mostNamed = 3;
/** Step of the box by which a suspect is tried. */
const step = 0.1;

/** What something that was not fitted does to the residuals. */
export interface Effect extends Pick<Suspect, 'kind' | 'path'> {
  readonly effect: Float64Array;
}

/**
 * What would explain a misfit: each parameter is moved once, and what its effect has in common with the rest, beyond
 * what the fitted parameters could do themselves, is the part it would take away. `instruments`: effects of gain and
 * bias of channels, beyond their class, and of one that lags behind the others.
 */
export async function suspectsOf(
  candidates: readonly Adjusted[],
  instruments: readonly Effect[],
  left: Float64Array,
  fitted: Matrix,
  leftWith: (candidate: Adjusted, value: number) => Promise<Float64Array>,
): Promise<Suspect[]> {
  const all = dot(left, left);
  const effects: Effect[] = [...instruments];
  for (const candidate of candidates) {
    const { path, start, low, high } = candidate;
    const away = (start - low) / (high - low) < 0.5 ? step : -step;
    const moved = await leftWith(candidate, start + away * (high - low));
    effects.push({ kind: 'parameter', path, effect: moved.map((e, i) => e - left[i]!) });
  }
  const suspects = effects.flatMap(({ kind, path, effect }): Suspect[] => {
    const own = without(effect, fitted);
    const size = dot(own, own);
    const explains_ratio = size > 1e-9 * left.length ? dot(own, left) ** 2 / size / all : 0;
    return explains_ratio >= leastShare ? [{ kind, path, explains_ratio }] : [];
  });
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
