/**
 * Least squares within a box: Levenberg's and Marquardt's damped step on sensitivities by central differences.
 * Sources: K. Levenberg, Quart. Appl. Math. 2(2), 1944; D. W. Marquardt, J. SIAM 11(2), 1963, DOI 10.1137/0111030.
 */
import { Matrix, solve } from 'ml-matrix';
import type { Box } from './box.ts';

export interface LeastSquares {
  /** Found values in the box [0, 1] of each parameter. */
  readonly values: readonly number[];
  readonly residuals: Float64Array;
  /** d residual / d value, one row for each residual. */
  readonly sensitivities: Matrix;
  readonly sumBefore: number;
  readonly sumAfter: number;
  readonly iterations: number;
  readonly runs: number;
  readonly converged: boolean;
}

export interface LeastSquaresOptions {
  readonly box: Box;
  /** Half width of a central difference, of the box. */
  readonly step?: number;
  readonly mostIterations?: number;
  /** A step by which the sum of squares would fall by less is not worth its run. */
  readonly leastGain?: number;
  readonly onIteration?: (iteration: number, sum: number) => void;
}

/** A step that changes no value by more than this share of its box ends the search. */
const smallestMove = 1e-5;
/** As does a sum of squares that falls by less than this. */
const smallestGain = 1e-7;

/** `residualsOf` gives the residuals at values in [0, 1]; `start` is where the search begins. */
export async function leastSquares(
  residualsOf: (values: readonly number[]) => Promise<Float64Array>,
  start: readonly number[],
  options: LeastSquaresOptions,
): Promise<LeastSquares> {
  const { box, step = 0.01, mostIterations = 20, leastGain = 0 } = options;
  const steps = start.map(() => step);
  let runs = 0;
  const at = (values: readonly number[]): Promise<Float64Array> => {
    runs++;
    return residualsOf(values);
  };
  let values = box.snapped(start);
  let residuals = await at(values);
  let sum = squares(residuals);
  const sumBefore = sum;
  let damping = 1e-3;
  let iterations = 0;
  let converged = false;
  let sensitivities = await differences(at, values, { box, steps }, residuals.length);
  while (iterations < mostIterations && !converged) {
    iterations++;
    const next = await better();
    if (next === null) {
      converged = true;
      break;
    }
    const moved = Math.max(...next.values.map((v, j) => Math.abs(v - values[j]!)));
    converged = moved < smallestMove || sum - next.sum < smallestGain * sum;
    ({ values, residuals, sum } = next);
    options.onIteration?.(iterations, sum);
    sensitivities = await differences(at, values, { box, steps }, residuals.length);
  }
  return { values, residuals, sensitivities, sumBefore, sumAfter: sum, iterations, runs, converged };

  /** A point with a smaller sum, or null where no damping finds one. */
  async function better() {
    const J = sensitivities;
    const JtJ = J.transpose().mmul(J);
    const gradient = J.transpose().mmul(Matrix.columnVector([...residuals]));
    for (let tries = 0; tries < 8; tries++) {
      const damped = JtJ.clone();
      for (let j = 0; j < values.length; j++) damped.set(j, j, JtJ.get(j, j) * (1 + damping) + 1e-30);
      const move = solve(damped, gradient, true).to1DArray();
      const gain = move.reduce((all, m, j) => all + m * gradient.get(j, 0), 0);
      if (gain < leastGain) return null;
      const tried = box.snapped(
        values.map((v, j) => Math.min(1, Math.max(0, v - (Number.isFinite(move[j]!) ? move[j]! : 0)))),
      );
      const found = await at(tried);
      const foundSum = squares(found);
      if (foundSum < sum) {
        damping = Math.max(1e-9, damping / 8);
        return { values: tried, residuals: found, sum: foundSum };
      }
      if (tried.every((v, j) => Math.abs(v - values[j]!) < smallestMove)) return null;
      damping *= 10;
    }
    return null;
  }
}

/** Central differences of the residuals by each value, its step of the box to either side, or to the next on its grid. */
export async function differences(
  at: (values: readonly number[]) => Promise<Float64Array>,
  values: readonly number[],
  { box, steps }: { readonly box: Box; readonly steps: readonly number[] },
  count: number,
): Promise<Matrix> {
  const J = Matrix.zeros(count, values.length);
  for (let j = 0; j < values.length; j++) {
    // At a wall of the box the difference leans inwards.
    const by = Math.max(steps[j]!, box.spacing[j]!);
    const moved = (to: number): number[] => box.snapped(values.map((v, k) => (k === j ? to : v)));
    const above = moved(Math.min(1, values[j]! + by));
    const below = moved(Math.max(0, values[j]! - by));
    const upper = await at(above);
    const lower = await at(below);
    const apart = above[j]! - below[j]!;
    for (let i = 0; i < count && apart > 0; i++) J.set(i, j, (upper[i]! - lower[i]!) / apart);
  }
  return J;
}

function squares(residuals: Float64Array): number {
  let sum = 0;
  for (const r of residuals) sum += r * r;
  return sum;
}
