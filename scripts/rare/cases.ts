/** Limit functions of twenty standard normals whose probability of failing is known in closed form. */
import { Random } from '../../src/loads/random.ts';
import { normalShare } from '../../src/studies/spread/normal-share.ts';
import { firstOf, type RareResult, rareProbability } from '../../src/studies/spread/rare/rare.ts';
import type { Point } from '../../src/studies/spread/rare/subsets.ts';

export interface RareCase {
  readonly name: string;
  readonly margin: (u: Point) => number;
  readonly probability: number;
  /** Within which the estimate is asked to lie. */
  readonly factor: number;
}

const dimensions = 20;

const along = (u: Point): number => u.reduce((sum, x) => sum + x, 0) / Math.sqrt(dimensions);

/** P(sum of n exponentials > c): Poisson's sum. */
function gammaTail(n: number, c: number): number {
  let term = Math.exp(-c);
  let sum = 0;
  for (let k = 0; k < n; k++) {
    sum += term;
    term *= c / (k + 1);
  }
  return sum;
}

/** An exponential of mean 1 for each normal, long where the normal is large. */
const exponentials = (u: Point): number => u.reduce((sum, x) => sum - Math.log(normalShare(-x)), 0);

export const rareCases: readonly RareCase[] = [
  {
    name: 'linear in twenty normals',
    margin: (u) => 3.09 - along(u),
    probability: normalShare(-3.09),
    factor: 1.5,
  },
  {
    name: 'curved: sum of twenty exponentials',
    margin: (u) => 36.7 - exponentials(u),
    probability: gammaTail(dimensions, 36.7),
    factor: 2,
  },
  {
    name: 'two regions, opposite',
    margin: (u) => 3.29 - Math.abs(along(u)),
    probability: 2 * normalShare(-3.29),
    factor: 2,
  },
  {
    name: 'two regions, unequal, at right angles',
    margin: (u) => Math.min(3.1 - u[0]!, 3.4 - u[1]!),
    probability: 1 - (1 - normalShare(-3.1)) * (1 - normalShare(-3.4)),
    factor: 2,
  },
  {
    name: 'curved: outside a circle of two',
    margin: (u) => 3.7 - Math.hypot(u[0]!, u[1]!),
    probability: Math.exp(-(3.7 * 3.7) / 2),
    factor: 2,
  },
];

/** The estimate within 2,000 evaluations, the search among them. */
export async function rareOf({ margin }: RareCase, seed: number): Promise<RareResult> {
  const random = new Random(7919 * seed);
  const first = Array.from({ length: firstOf(2000) }, () => {
    const point = new Float64Array(dimensions);
    for (let j = 0; j < dimensions; j++) point[j] = random.gaussian();
    return { point, margin: margin(point) };
  });
  return rareProbability(first, 2000, async (points) => points.map(margin), seed);
}
