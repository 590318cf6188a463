/**
 * A small probability of failing, from few evaluations. First the way to what fails (`subsets.ts`), which gives an estimate of
 * its own; then, where that would be the more precise, draws about the regions where what fails lies (`mixture.ts`). How precise they
 * would be is asked of the points of the way, which come as often as they fail: a region that the draws would miss, or reach
 * too seldom, has its part of them, and the draws are then not made.
 */
import { exponential } from '../../../base/exponential.ts';
import { Random } from '../../../loads/random.ts';
import { drawsAbout, weightAt } from './mixture.ts';
import { type Region, regionsOf } from './regions.ts';
import { type AskMargins, type At, type Walk, walkToFailing } from './subsets.ts';

/** 97.5 % point of the standard normal distribution. */
const z = 1.959963984540054;

/** What the way to what fails may take of all evaluations. */
const way_ratio = 0.7;

/**
 * By how much the draws may look worse than the way, and still be made: half of the chains place the regions less well than
 * all of them do, which in many dimensions tells. Tried on known functions: 1, 2 and 4, the last without loss of coverage.
 */
const placedByHalf = 4;

export interface RareResult {
  /** null: nothing that fails was found. */
  readonly probability: number | null;
  /** Meant to hold the probability 95 times of 100; how often it does on functions that are known: `scripts/rare-coverage.ts`. */
  readonly interval: readonly [number, number] | null;
  readonly evaluations: number;
  readonly levels: number;
  /** Where what fails lies; none where nothing was found. */
  readonly regions: readonly Region[];
  readonly by: 'levels' | 'draws';
}

/** Plain points that the way begins with, of so many evaluations in all: a thousandth takes three levels. */
export function firstOf(most: number): number {
  return Math.floor((way_ratio * most) / 2.8);
}

/** `first`: plain points with their margins; `most`: evaluations in all, those among them. */
export async function rareProbability(
  first: readonly At[],
  most: number,
  ask: AskMargins,
  seed: number,
): Promise<RareResult> {
  const random = new Random(seed);
  let evaluations = first.length;
  const counted: AskMargins = async (points) => {
    evaluations += points.length;
    return ask(points);
  };
  const walk = await walkToFailing(first, most - first.length, counted, random);
  const { failing, levels } = walk;
  if (failing.length === 0)
    return { probability: null, interval: null, evaluations, levels, regions: [], by: 'levels' };
  const regions = regionsOf(
    failing.map(({ point }) => point),
    random,
  );
  const left = most - evaluations;
  const byLevels = { ...about(walk.probability, walk.square_ratio), levels, regions };
  if (left < 1 || foreseen(walk, random) / left > placedByHalf * walk.square_ratio)
    return { ...byLevels, evaluations, by: 'levels' };
  const draws = drawsAbout(regions, left, failing[0]!.point.length, random);
  const margins = await counted(draws);
  const weights = draws.map((point, k) => (margins[k]! < 0 ? weightAt(point, regions) : 0));
  const mean = weights.reduce((sum, weight) => sum + weight, 0) / left;
  if (mean === 0) return { ...byLevels, evaluations, by: 'levels' };
  const square = weights.reduce((sum, weight) => sum + weight * weight, 0) / left;
  return {
    ...about(mean, (square / (mean * mean) - 1) / left),
    evaluations,
    levels,
    regions,
    by: 'draws',
  };
}

/**
 * Squared coefficient of variation of one draw about the regions: mean weight of what fails over its probability, less 1. Half
 * of the chains say where the regions are, the other half what that is worth, and the other way round; the worse counts.
 */
function foreseen({ failing, probability }: Walk, random: Random): number {
  const halves = [0, 1].map((half) =>
    failing.flatMap(({ point, chain }) => (chain % 2 === half ? [point] : [])),
  );
  if (halves.some((points) => points.length === 0)) return Number.POSITIVE_INFINITY;
  const worst = halves.map((points, half) => {
    const regions = regionsOf(points, random);
    const others = halves[1 - half]!;
    const mean = others.reduce((sum, point) => sum + weightAt(point, regions), 0) / others.length;
    return mean / probability - 1;
  });
  return Math.max(...worst);
}

/** An estimate with its interval: of the logarithm, so that it does not reach below 0. */
function about(probability: number, square_ratio: number): Pick<RareResult, 'probability' | 'interval'> {
  // Logarithm of a number whose squared coefficient of variation this is: ln(1 + c²) is its variance.
  const factor = exponential(z * Math.sqrt(Math.log1p(square_ratio)));
  return { probability, interval: [probability / factor, Math.min(1, probability * factor)] };
}
