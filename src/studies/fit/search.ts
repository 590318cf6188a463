import type { Matrix } from 'ml-matrix';
import type { Box } from './box.ts';
import { allSteps, finestSteps, searchByValues } from './by-values.ts';
import { differences, type LeastSquares, leastSquares } from './least-squares.ts';
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
/** A search that ends this near to the noise, RMS over it, has found the hollow that there is: no other is looked for. */
const asNoise = 1.2;

/**
 * The least sum of squares in the box: along the slopes from the present values and, where that does not end at the
 * noise, from the best of points spread over the box; then by values from the best end.
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
      onIteration: (_k, sum) => onIteration(++iterations, sum),
    });
    ends.push(end);
    return end;
  };
  const isNoise = ({ sumAfter, residuals }: LeastSquares): boolean =>
    Math.sqrt(sumAfter / residuals.length) < asNoise;
  if (!isNoise(await search(own!))) {
    const tried: { readonly values: readonly number[]; readonly sum: number }[] = [];
    for (const values of spread) tried.push({ values, sum: await sumAt(values) });
    tried.sort((a, b) => a.sum - b.sum);
    for (const { values } of tried.slice(0, searchedFrom)) if (isNoise(await search(values))) break;
  }
  const best = ends.reduce((a, b) => (b.sumAfter < a.sumAfter ? b : a));
  const found = await searchByValues(
    sumAt,
    { values: best.values, sum: best.sumAfter },
    { box, steps: isNoise(best) ? finestSteps : allSteps },
  );
  const left = await leftAt(found.values);
  return {
    values: found.values,
    left,
    sensitivities: await differences(leftAt, found.values, { box, step }, left.length),
    sumAfter: found.sum,
    iterations,
    converged: best.converged,
    searches: ends.map(({ sumBefore, sumAfter }) => ({ from: sumBefore, to: sumAfter })),
  };
}
