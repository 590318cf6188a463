/** Samples as points of independent standard normals, and the probabilities that tolerances are drawn at there. */
import { Random } from '../../../loads/random.ts';
import { normalShare } from '../normal-share.ts';
import type { Point } from './subsets.ts';

/** No value is drawn further out than so many standard deviations: 1e-9 of them would lie there. */
const furthest = 6;

export function plainPoints(count: number, dimensions: number, seed: number): readonly Point[] {
  const random = new Random(seed);
  return Array.from({ length: count }, () => {
    const point = new Float64Array(dimensions);
    for (let j = 0; j < dimensions; j++) point[j] = random.gaussian();
    return point;
  });
}

export function probabilitiesAt(point: Point): Float64Array {
  return point.map((x) => normalShare(Math.max(-furthest, Math.min(furthest, x))));
}

/** The two ends of what may be drawn. */
export function furthestRows(dimensions: number): readonly Float64Array[] {
  return [-furthest, furthest].map((x) => probabilitiesAt(new Float64Array(dimensions).fill(x)));
}
