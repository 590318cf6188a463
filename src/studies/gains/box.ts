/**
 * The box that a supplier may be held to: from one value to another of both parameters at once, every point of the map
 * inside it acceptable, corners and faces among them. Of all boxes about the chosen point the one with the most points, of
 * those that hold it off their faces where there are any; so beyond each face lies a point that is not acceptable, or the
 * end of the map, beyond which nothing is known.
 */
import { formatQuantity } from '../../base/quantity.ts';
import type { GainsAxis } from './axis.ts';

export interface Face {
  /** Where the box ends [SI], and as it is written: three digits, rounded into the box. */
  readonly value: number;
  readonly text: string;
  /** A point of the map next to the face, outside, that is not acceptable, as changes; null where the map ends. */
  readonly fails: readonly { readonly path: string; readonly value: string }[] | null;
}

export interface BoxSide {
  readonly path: string;
  readonly low: Face;
  readonly high: Face;
}

export interface Box {
  readonly sides: readonly [BoxSide, BoxSide];
  /** Places on both axes of the lowest and the highest corner. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Points of the map in it. */
  readonly points: number;
  /** Points between those of the map that were run in it (`finer-box.ts`). */
  readonly between: number;
}

interface Found extends Omit<Box, 'sides' | 'between'> {
  readonly isDeep: boolean;
}

type Good = readonly (readonly boolean[])[];

/** `good[i][j]` at point i of the first axis, j of the second; the point at `place` is. */
export function boxAbout(
  axes: readonly [GainsAxis, GainsAxis],
  good: Good,
  [i, j]: readonly [number, number],
): Box {
  const [a, b] = axes;
  let best: Found = { from: [i, j], to: [i, j], points: 0, isDeep: false };
  for (let first = i; first >= 0 && good[first]![j]; first--) {
    for (let last = i; last < a.values.length && good[last]![j]; last++) {
      const isWhole = (k: number): boolean => good.slice(first, last + 1).every((row) => row[k] === true);
      let [low, high] = [j, j];
      while (isWhole(low - 1)) low--;
      while (isWhole(high + 1)) high++;
      const points = (last - first + 1) * (high - low + 1);
      const isDeep =
        (first < i || i === 0) &&
        (last > i || i === a.values.length - 1) &&
        (low < j || j === 0) &&
        (high > j || j === b.values.length - 1);
      if (isDeep === best.isDeep ? points > best.points : isDeep)
        best = { from: [first, low], to: [last, high], points, isDeep };
    }
  }
  const { from, to, points } = best;
  const pair = (x: number, y: number): Face['fails'] => [
    { path: a.path, value: a.values[x]! },
    { path: b.path, value: b.values[y]! },
  ];
  const along = (x: number): Face['fails'] => {
    if (x < 0 || x >= a.values.length) return null;
    const bad = good[x]!.findIndex((ok, k) => !ok && k >= from[1] && k <= to[1]);
    return pair(x, bad);
  };
  const across = (y: number): Face['fails'] => {
    if (y < 0 || y >= b.values.length) return null;
    const bad = good.findIndex((row, k) => !row[y] && k >= from[0] && k <= to[0]);
    return pair(bad, y);
  };
  return {
    from,
    to,
    points,
    between: 0,
    sides: [
      {
        path: a.path,
        low: face(a, from[0], 1, along(from[0] - 1)),
        high: face(a, to[0], -1, along(to[0] + 1)),
      },
      {
        path: b.path,
        low: face(b, from[1], 1, across(from[1] - 1)),
        high: face(b, to[1], -1, across(to[1] + 1)),
      },
    ],
  };
}

function face(axis: GainsAxis, k: number, inward: Inward, fails: Face['fails']): Face {
  return faceAt(axis, axis.numbers[k]!, inward, fails);
}

/** 1 where the box lies above the face, −1 where it lies below. */
export type Inward = 1 | -1;

export function faceAt(axis: GainsAxis, value: number, inward: Inward, fails: Face['fails']): Face {
  return { value, text: formatQuantity(rounded(value, inward, axis), axis.unit), fails };
}

/** To three digits, on whole steps of the axis, never out of the box. */
export function rounded(value: number, inward: Inward, { step }: Pick<GainsAxis, 'step'>): number {
  if (value === 0) return 0;
  const near = Number(value.toPrecision(3));
  const last = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2);
  const inside = (near - value) * inward >= 0 ? near : Number((near + inward * last).toPrecision(3));
  if (step === 0) return inside;
  const steps = inside / step;
  const whole =
    Math.abs(steps - Math.round(steps)) < 1e-6
      ? Math.round(steps)
      : inward > 0
        ? Math.ceil(steps)
        : Math.floor(steps);
  // Twelve digits: a whole number of ticks as a decimal time.
  return Number((whole * step).toPrecision(12));
}
