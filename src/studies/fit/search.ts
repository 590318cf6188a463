import type { Matrix } from 'ml-matrix';
import type { Box } from './box.ts';
import { allSteps, finestSteps, searchByValues } from './by-values.ts';
import { differences, type LeastSquares, leastSquares } from './least-squares.ts';
import { type Point, pastStairs, wideAsNoise } from './past-stairs.ts';
import { sumOf } from './residuals.ts';
import { startsOf } from './starts.ts';

export interface Searched {
  readonly values: readonly number[];
  readonly left: Float64Array;
  readonly sensitivities: Matrix;
  readonly sumAfter: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Sums of squares where each search began and ended. */
  readonly searches: readonly { readonly from: number; readonly to: number }[];
}

/** Points spread over the box for each parameter, and how many of the best of them are searched from. */
const perParameter = 4;
const searchedFrom = 2;
/** Half width of a difference, of the box. */
const step = 0.01;
const mostIterations = 12;
/** Squares of the noise: stairs of a simulation are higher, and the last step goes past them. */
const leastGain = 0.1;
/** A search that ends this near to the noise, RMS over it, has found the hollow that there is: no other is looked for. */
const asNoise = 1.2;

/**
 * The least sum of squares in the box: along the slopes from the present values and, where that does not end at the
 * noise, from the best of points spread over the box; from the best end by slopes past the stairs of the noise, or by
 * values where it is not that.
 */
export async function searchFrom(
  present: readonly number[],
  box: Box,
  leftAt: (values: readonly number[]) => Promise<Float64Array>,
  onIteration: (iteration: number, sum: number) => void,
): Promise<Searched> {
  const sumAt = async (values: readonly number[]): Promise<number> => sumOf(await leftAt(values));
  const [own, ...spread] = startsOf(present, perParameter * present.length).map(box.snapped);
  const ends: LeastSquares[] = [];
  let iterations = 0;
  const search = async (start: readonly number[]): Promise<LeastSquares> => {
    const end = await leastSquares(leftAt, start, {
      box,
      step,
      mostIterations,
      leastGain,
      onIteration: (_k, sum) => onIteration(++iterations, sum),
    });
    ends.push(end);
    return end;
  };
  const isNoise = ({ sumAfter, residuals }: LeastSquares): boolean =>
    Math.sqrt(sumAfter / residuals.length) < asNoise;
  const byValues = async (end: LeastSquares, steps: readonly number[]) => {
    const { values } = await searchByValues(sumAt, { values: end.values, sum: end.sumAfter }, { box, steps });
    return { values, left: await leftAt(values) };
  };
  const offNoise = async (end: LeastSquares): Promise<Point> => {
    const { values, left } = await byValues(end, allSteps);
    const steps = values.map(() => step);
    return { values, left, sensitivities: await differences(leftAt, values, { box, steps }, left.length) };
  };
  const atNoise = async (end: LeastSquares): Promise<Point> => {
    const { values, residuals: left, sensitivities } = end;
    const steps = wideAsNoise({ values, left, sensitivities }, step);
    const onGrid = box.spacing.some((spacing) => spacing > 0);
    const from = onGrid ? await byValues(end, finestSteps) : { values, left };
    return pastStairs(leftAt, from, { box, steps });
  };
  if (!isNoise(await search(own!))) {
    const tried: { readonly values: readonly number[]; readonly sum: number }[] = [];
    for (const values of spread) tried.push({ values, sum: await sumAt(values) });
    tried.sort((a, b) => a.sum - b.sum);
    for (const { values } of tried.slice(0, searchedFrom)) if (isNoise(await search(values))) break;
  }
  const best = ends.reduce((a, b) => (b.sumAfter < a.sumAfter ? b : a));
  const { values, left, sensitivities } = isNoise(best) ? await atNoise(best) : await offNoise(best);
  return {
    values,
    left,
    sensitivities,
    sumAfter: sumOf(left),
    iterations,
    converged: best.converged,
    searches: ends.map(({ sumBefore, sumAfter }) => ({ from: sumBefore, to: sumAfter })),
  };
}
