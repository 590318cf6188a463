/**
 * Draws about the regions of what fails, each weighed by how much more often it is drawn than it comes: importance sampling
 * from a mixture, a tenth of which is the distribution itself, so that no weight is above ten (T. Hesterberg, Technometrics
 * 37, 1995; from memory).
 */
import { exponential } from '../../../base/exponential.ts';
import type { Random } from '../../../loads/random.ts';
import type { Region } from './regions.ts';
import type { Point } from './subsets.ts';

/** Part of the draws that is of the distribution itself. */
const plain_ratio = 0.1;

/** Of the mixture's parts each its share of the draws, spread evenly over their order. */
export function drawsAbout(
  regions: readonly Region[],
  count: number,
  dimensions: number,
  random: Random,
): readonly Point[] {
  return Array.from({ length: count }, (_, k) => {
    // Steps by the golden section: every stretch of the order has its parts of each.
    const centre = centreAt((0.5 + k * 0.6180339887498949) % 1, regions);
    const point = new Float64Array(dimensions);
    for (let j = 0; j < dimensions; j++) point[j] = (centre?.[j] ?? 0) + random.gaussian();
    return point;
  });
}

/** Density of the distribution itself over that of the mixture. */
export function weightAt(point: Point, regions: readonly Region[]): number {
  let sum = plain_ratio;
  for (const { centre, share } of regions) {
    let exponent = 0;
    for (let j = 0; j < point.length; j++) exponent += centre[j]! * (point[j]! - centre[j]! / 2);
    sum += (1 - plain_ratio) * share * exponential(exponent);
  }
  return 1 / sum;
}

/** null: of the distribution itself. */
function centreAt(u: number, regions: readonly Region[]): Point | null {
  let up = plain_ratio;
  if (u < up) return null;
  for (const { centre, share } of regions) {
    up += (1 - plain_ratio) * share;
    if (u < up) return centre;
  }
  return regions.at(-1)!.centre;
}
