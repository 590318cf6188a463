/** The points that a box is run at, to three digits, none outside it. */
import type { GainsAxis } from './axis.ts';
import { type Box, type BoxSide, rounded } from './box.ts';

/** Values of both axes [SI]. */
export type Point = readonly [number, number];

/** Points along a face, its ends among them, and points of the filling sample. */
const alongCount = 5;
const fillCount = 20;

/** Values from one end of a side to the other. */
export function alongSide({ low, high }: BoxSide, axis: GainsAxis): number[] {
  return Array.from({ length: alongCount }, (_, n) => at(low.value, high.value, n / (alongCount - 1), axis));
}

function at(low: number, high: number, share: number, axis: GainsAxis): number {
  if (share === 1) return rounded(high, -1, axis);
  return rounded(low + share * (high - low), 1, axis);
}

/** The points that the whole box is run at: along all faces, and Halton's sequence (1960) inside. */
export function throughout(
  { sides: [a, b] }: Box,
  [along, across]: readonly [GainsAxis, GainsAxis],
): Point[] {
  const x = (share: number): number => at(a.low.value, a.high.value, share, along);
  const y = (share: number): number => at(b.low.value, b.high.value, share, across);
  const faces = [0, 1].flatMap((end) => [
    ...alongSide(b, across).map((other): Point => [x(end), other]),
    ...alongSide(a, along).map((other): Point => [other, y(end)]),
  ]);
  const filling = Array.from(
    { length: fillCount },
    (_, n): Point => [x(halton(n + 1, 2)), y(halton(n + 1, 3))],
  );
  return [...faces, ...filling];
}

/** The digits of n in this base, mirrored behind the point. */
function halton(n: number, base: number): number {
  let [sum, digit] = [0, 1 / base];
  for (let rest = n; rest > 0; rest = Math.floor(rest / base), digit /= base) sum += digit * (rest % base);
  return sum;
}
