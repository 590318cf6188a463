/**
 * The last steps of a search that has come to the noise. A run chooses its steps in time by its own values, and what it
 * shows jumps with them by a hundredth of the noise, Δ. In the sum of squares that is 2 Σ e Δ, stairs of half a square of
 * the noise or more, for the measurement's own noise e multiplies it; the lowest stair is chance, and lies up to a standard
 * error off. Slopes over the width that noise leaves open, and steps by them that need not lower the sum, see past it
 * (C. F. Gauss's steps, within the box).
 */
import { Matrix, solve } from 'ml-matrix';
import type { Box } from './box.ts';
import { confidenceOf } from './confidence.ts';
import { differences } from './least-squares.ts';

export interface Point {
  readonly values: readonly number[];
  readonly left: Float64Array;
  readonly sensitivities: Matrix;
}

/** Half width of a difference, of the box: as far as an interval reaches, and no farther than this. */
const widest = 0.25;
/** What the sum of squares may grow by on the way, in squares of the noise: what 95 % take. The search ended on a lucky stair. */
const mostGrowth = 4;
const mostRounds = 4;
/** A step that is short beside the width that noise leaves open is the last. */
const closeEnough = 0.02;

/** Half widths of differences, of the box, as wide as noise leaves each value; at least `least`. */
export function wideAsNoise({ left, sensitivities }: Point, least: number): number[] {
  const { halfWidths } = confidenceOf(sensitivities, squareOf(left));
  return halfWidths.map((half) => Math.min(widest, Math.max(least, half ?? least)));
}

/** The values where slopes lead from here, as far as the sum of squares does not tell that they are wrong. */
export async function pastStairs(
  leftAt: (values: readonly number[]) => Promise<Float64Array>,
  from: Pick<Point, 'values' | 'left'>,
  { box, steps }: { readonly box: Box; readonly steps: readonly number[] },
): Promise<Point> {
  const sensitivities = await differences(leftAt, from.values, { box, steps }, from.left.length);
  let at = from;
  for (let round = 0; round < mostRounds; round++) {
    const values = stepWithin(sensitivities, at, box);
    const left = await leftAt(values);
    if ((squareOf(left) / squareOf(from.left) - 1) * left.length > mostGrowth) break;
    const moved = Math.max(...values.map((v, j) => Math.abs(v - at.values[j]!) / steps[j]!));
    at = { values, left };
    if (moved < closeEnough) break;
  }
  return { ...at, sensitivities };
}

/** Least squares on a straight model; a value that would leave the box stops at its end, and the others follow. */
function stepWithin(J: Matrix, { values, left }: Pick<Point, 'values' | 'left'>, box: Box): number[] {
  const moved = [...values];
  let free = values.flatMap((_, j) => (box.spacing[j] === 0 && lengthOf(J, j) > 0 ? [j] : []));
  while (free.length > 0) {
    const rest = Matrix.columnVector([...left]);
    rest.add(J.mmul(Matrix.columnVector(moved.map((v, j) => (free.includes(j) ? 0 : v - values[j]!)))));
    const part = J.subMatrixColumn(free);
    const step = solve(part.transpose().mmul(part), part.transpose().mmul(rest), true).to1DArray();
    free.forEach((j, k) => {
      moved[j] = Math.min(1, Math.max(0, values[j]! - step[k]!));
    });
    const inside = free.filter((j) => moved[j]! > 0 && moved[j]! < 1);
    if (inside.length === free.length) break;
    free = inside;
  }
  return moved;
}

function lengthOf(J: Matrix, j: number): number {
  return Math.hypot(...J.getColumn(j));
}

/** Mean square. */
function squareOf(left: Float64Array): number {
  return left.reduce((sum, e) => sum + e * e, 0) / left.length;
}
