/**
 * Profile intervals: how far one parameter can be moved, the others following as well as they can, until the sum of
 * squares has grown by what noise alone explains, S = S_min + t² s². Beside the linear interval it needs no straight
 * model over its width, and on a staircase it ends at a step instead of between two.
 * Source: D. M. Bates, D. G. Watts, Nonlinear Regression Analysis and Its Applications, 1988, section 6.1 (profile t).
 */
import type { Box } from './box.ts';

export interface ProfileCase {
  readonly values: readonly number[];
  readonly sum: number;
  /** Change of every value, the best of the others, for a change of 1 of parameter j. */
  readonly following: (j: number) => readonly number[];
  readonly sumAt: (values: readonly number[]) => Promise<number>;
  /** Of an independent residual, s². */
  readonly variance: number;
  /** Student's factor for 95 %. */
  readonly factor: number;
  readonly box: Box;
}

/** A place along a profile that was tried. */
export interface ProfilePoint {
  /** How far the parameter was moved, of its box. */
  readonly moved: number;
  /** Root of the growth of the sum of squares over s², with the sign of the move; on a staircase it may fall below 0 above. */
  readonly t: number;
}

export interface Profile {
  /** Of the interval, in the box; an end at 0 or 1 is that of the box. */
  readonly ends: readonly [number, number];
  /** What was tried to find them, in the order of the move; the found value itself among them. */
  readonly points: readonly ProfilePoint[];
}

const mostRuns = 6;
const mostSteps = 12;
/** From within this share of the growth that is wanted a straight line leads to it. */
const near = 0.05;

/** The interval of parameter j; `halfWidth`: about what it is. */
export async function profileOf(c: ProfileCase, j: number, halfWidth: number): Promise<Profile> {
  const points: ProfilePoint[] = [{ moved: 0, t: 0 }];
  const tried = (point: ProfilePoint): void => void points.push(point);
  const low = await endOf(c, j, halfWidth, -1, tried);
  const high = await endOf(c, j, halfWidth, 1, tried);
  points.sort((a, b) => a.moved - b.moved);
  return { ends: [c.values[j]! + low, c.values[j]! + high], points };
}

async function endOf(
  c: ProfileCase,
  j: number,
  halfWidth: number,
  side: -1 | 1,
  tried: (point: ProfilePoint) => void,
): Promise<number> {
  const { values, sum, sumAt, variance, factor, box } = c;
  const room = side < 0 ? values[j]! : 1 - values[j]!;
  const direction = c.following(j);
  const signed = async (distance: number): Promise<number> => {
    const moved = box.snapped(
      values.map((v, k) => Math.min(1, Math.max(0, v + side * distance * (k === j ? 1 : direction[k]!)))),
    );
    const grown = ((await sumAt(moved)) - sum) / variance;
    const t = Math.sign(grown) * Math.sqrt(Math.abs(grown));
    tried({ moved: moved[j]! - values[j]!, t: side * t });
    return t;
  };
  const spacing = box.spacing[j]!;
  if (spacing > 0.2 * halfWidth) return side * (await wholeSteps(spacing, room, signed, factor));
  // t grows about in proportion to the distance: each trial says where the next should be.
  let [inside, outside] = [0, Number.POSITIVE_INFINITY];
  let distance = Math.min(room, halfWidth);
  for (let runs = 0; runs < mostRuns; runs++) {
    const t = await signed(distance);
    if (Math.abs(t - factor) < near * factor) return side * Math.min(room, (distance * factor) / t);
    if (t < factor) inside = distance;
    else outside = distance;
    if (inside >= room) return side * room;
    const by = t > 0.2 * factor ? (distance * factor) / t : 3 * distance;
    distance = Math.min(room, outside === Number.POSITIVE_INFINITY ? by : between(inside, outside, by));
  }
  // Where it does not settle, as on a staircase, the outer of the two counts.
  return side * Math.min(room, outside === Number.POSITIVE_INFINITY ? distance : outside);
}

/** Of a value on a coarse grid: the last of its points that noise alone explains, or the first that is not tried. */
async function wholeSteps(
  spacing: number,
  room: number,
  signed: (distance: number) => Promise<number>,
  factor: number,
): Promise<number> {
  const most = Math.floor(room / spacing + 1e-9);
  for (let k = 1; k <= most; k++) {
    if (k > mostSteps) return k * spacing;
    if ((await signed(k * spacing)) > factor) return (k - 1) * spacing;
  }
  return most * spacing;
}

/** `wanted`, or the middle where it lies outside. */
function between(inside: number, outside: number, wanted: number): number {
  const margin = 0.1 * (outside - inside);
  return wanted > inside + margin && wanted < outside - margin ? wanted : (inside + outside) / 2;
}
