/**
 * Off the noise, and of values on a grid, the last of a search goes by values and not by slopes: trims, ticks and sampled
 * loops make the sum of squares a staircase at its bottom, on which a difference quotient says nothing. One parameter after the other is tried on
 * either side, in steps that shrink when nothing is better.
 */
import type { Box } from './box.ts';

export interface FoundByValues {
  readonly values: readonly number[];
  readonly sum: number;
}

/** Steps of the box; the finest alone where slopes have led to the noise. */
export const allSteps: readonly number[] = [0.02, 0.005, 0.00125];
export const finestSteps: readonly number[] = [0.00125];
const mostSweeps = 3;

export async function searchByValues(
  sumAt: (values: readonly number[]) => Promise<number>,
  from: FoundByValues,
  { box, steps }: { readonly box: Box; readonly steps: readonly number[] },
): Promise<FoundByValues> {
  let best = from;
  for (const step of steps) {
    for (let sweep = 0; sweep < mostSweeps; sweep++) {
      const before = best.sum;
      for (let j = 0; j < best.values.length; j++) {
        best = await alongOne(sumAt, best, j, { box, step: Math.max(step, box.spacing[j]!) });
      }
      if (best.sum >= before) break;
    }
  }
  return best;
}

async function alongOne(
  sumAt: (values: readonly number[]) => Promise<number>,
  from: FoundByValues,
  j: number,
  { box, step }: { readonly box: Box; readonly step: number },
): Promise<FoundByValues> {
  let best = from;
  for (const side of [-1, 1]) {
    const values = box.snapped(
      from.values.map((v, k) => (k === j ? Math.min(1, Math.max(0, v + side * step)) : v)),
    );
    const sum = await sumAt(values);
    if (sum < best.sum) best = { values, sum };
  }
  return best;
}
