/** Where points that fail lie: a centre for each region, with its share of them. */
import type { Random } from '../../../loads/random.ts';
import type { Point } from './subsets.ts';

export interface Region {
  readonly centre: Point;
  readonly share: number;
  /** Places of its points in the list. */
  readonly members: readonly number[];
}

/**
 * Two halves are regions of their own where their centres lie further apart than so many times what halving one round
 * region gives: by chance alone two halves of few points in many dimensions lie well apart.
 */
const apart = 1.5;

/** Points of a walk that tell about as much as one that is drawn by itself. */
const together = 2;

/** Points that a region needs. */
const leastMembers = 5;

const mostRegions = 8;

/** Halves what is furthest apart, again and again, while the halves are regions of their own. */
export function regionsOf(points: readonly Point[], random: Random): readonly Region[] {
  const done: number[][] = [];
  const open: number[][] = [points.map((_, k) => k)];
  while (open.length > 0) {
    const members = open.pop()!;
    const halves = done.length + open.length + 2 > mostRegions ? null : halved(points, members, random);
    if (halves === null) done.push(members);
    else open.push(...halves);
  }
  return done.map((members) => ({
    centre: meanOf(points, members),
    share: members.length / points.length,
    members,
  }));
}

/** Two means (S. Lloyd, IEEE Transactions on Information Theory 28, 1982; from memory); null where they are no regions. */
function halved(
  points: readonly Point[],
  members: readonly number[],
  random: Random,
): [number[], number[]] | null {
  if (members.length < 2 * leastMembers) return null;
  let best: { halves: [number[], number[]]; distance: number } | null = null;
  for (let attempt = 0; attempt < 4; attempt++) {
    const pick = (): Point => points[members[Math.floor(random.uniform() * members.length)]!]!;
    let [a, b] = [pick(), pick()];
    let halves: [number[], number[]] = [[], []];
    for (let pass = 0; pass < 20; pass++) {
      halves = [[], []];
      for (const k of members) halves[squared(points[k]!, a) <= squared(points[k]!, b) ? 0 : 1].push(k);
      if (halves[0].length < leastMembers || halves[1].length < leastMembers) break;
      [a, b] = [meanOf(points, halves[0]), meanOf(points, halves[1])];
    }
    if (halves[0].length < leastMembers || halves[1].length < leastMembers) continue;
    const distance = Math.sqrt(squared(a, b));
    if (best === null || distance > best.distance) best = { halves, distance };
  }
  const chance = halvesOfOne(points[0]!.length, members.length / together);
  return best === null || best.distance < apart * chance ? null : best.halves;
}

/**
 * How far apart the centres of two halves of one round region lie: its halves along where `count` points stretch most, each
 * 0.8 of that stretch off the middle (mean of half a normal distribution), and the chance of two means across.
 */
function halvesOfOne(dimensions: number, count: number): number {
  const stretch = 1 + Math.sqrt(dimensions / count);
  return Math.hypot(1.6 * stretch, Math.sqrt((4 * dimensions) / count));
}

function meanOf(points: readonly Point[], members: readonly number[]): Point {
  const mean = new Float64Array(points[0]!.length);
  for (const k of members) for (let j = 0; j < mean.length; j++) mean[j]! += points[k]![j]! / members.length;
  return mean;
}

function squared(a: Point, b: Point): number {
  let sum = 0;
  for (let j = 0; j < a.length; j++) sum += (a[j]! - b[j]!) * (a[j]! - b[j]!);
  return sum;
}
