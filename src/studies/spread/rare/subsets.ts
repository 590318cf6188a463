/**
 * A small probability as a product of larger ones, in a space of independent standard normals: each level keeps the tenth of its
 * points with the least margins, and walks on from them without leaving what they reached, until a twentieth of a level fails.
 * Subset simulation (S. K. Au and J. L. Beck, Probabilistic Engineering Mechanics 16, 2001; steps as I. Papaioannou et al.,
 * same journal 41, 2015; both from memory). It goes wherever margins fall, to several regions at once.
 */
import type { Random } from '../../../loads/random.ts';

export type Point = Float64Array;

/** Margins at points, in their order; below 0 a point fails. */
export type AskMargins = (points: readonly Point[]) => Promise<readonly number[]>;

export interface At {
  readonly point: Point;
  readonly margin: number;
}

/** Of a level those that are walked on from, over all. */
const kept_ratio = 0.1;

/** How much of a point a step keeps: the rest is drawn anew. Of 0.6 to 0.93 the one with the least spread. */
const step_ratio = 0.8;

/** Levels at most: what is rarer than 1e-8 is not sought. */
const mostLevels = 8;

export interface Walk {
  /** 0 where the last level still has none that fails. */
  readonly probability: number;
  /** Squared coefficient of variation of it. */
  readonly square_ratio: number;
  /** What fails of the last level, each with the chain of steps that it belongs to. */
  readonly failing: readonly { readonly point: Point; readonly chain: number }[];
  readonly levels: number;
}

/** `first`: plain points with their margins. Walks while `left` evaluations allow another level. */
export async function walkToFailing(
  first: readonly At[],
  left: number,
  ask: AskMargins,
  random: Random,
): Promise<Walk> {
  const count = first.length;
  const keep = Math.max(2, Math.round(kept_ratio * count));
  let level = first;
  let chains = count;
  let [reached, square_ratio, used] = [1, 0, 0];
  for (let levels = 1; ; levels++) {
    const failing = level.flatMap(({ point, margin }, k) => (margin < 0 ? [{ point, chain: k % keep }] : []));
    if (failing.length >= keep / 2 || levels === mostLevels || used + count - keep > left) {
      const spread = spreadOf(level, 0, chains);
      return {
        probability: (reached * failing.length) / count,
        square_ratio: square_ratio + spread,
        failing,
        levels,
      };
    }
    const sorted = [...level].sort((a, b) => a.margin - b.margin);
    // Between the last that is kept and the first that is not.
    const most = (sorted[keep - 1]!.margin + sorted[keep]!.margin) / 2;
    square_ratio += spreadOf(level, most, chains);
    reached *= keep / count;
    level = await walked(sorted.slice(0, keep), most, count, ask, random);
    chains = keep;
    used += count - keep;
  }
}

/** `count` points none of which has a margin above `most`: the seeds, and where they walked, chain by chain in turn. */
async function walked(
  seeds: readonly At[],
  most: number,
  count: number,
  ask: AskMargins,
  random: Random,
): Promise<readonly At[]> {
  const all = [...seeds];
  let now = [...seeds];
  while (all.length < count) {
    const walkers = now.slice(0, count - all.length);
    const steps = walkers.map(({ point }) => stepped(point, random));
    const margins = await ask(steps);
    now = walkers.map((before, k) =>
      margins[k]! <= most ? { point: steps[k]!, margin: margins[k]! } : before,
    );
    all.push(...now);
  }
  return all;
}

/** A step that leaves the standard normal distribution as it is. */
function stepped(point: Point, random: Random): Point {
  const fresh = Math.sqrt(1 - step_ratio * step_ratio);
  return point.map((x) => step_ratio * x + fresh * random.gaussian());
}

/** Squared coefficient of variation of the part of a level below `most`: points of a chain go together. */
function spreadOf(level: readonly At[], most: number, chains: number): number {
  const below = new Float64Array(chains);
  const lengths = new Float64Array(chains);
  level.forEach(({ margin }, k) => {
    lengths[k % chains]! += 1;
    if (margin < most) below[k % chains]! += 1;
  });
  const part = below.reduce((sum, own) => sum + own, 0) / level.length;
  if (part === 0) return Number.POSITIVE_INFINITY;
  const off = below.reduce((sum, own, k) => sum + (own - part * lengths[k]!) ** 2, 0);
  return off / (part * level.length) ** 2;
}
