/**
 * Block 5: how annoying a stretch of P_inst is, from the levels it exceeds for part of the time.
 *
 * P_st = √(0.0314 P_0.1 + 0.0525 P_1s + 0.0657 P_3s + 0.28 P_10s + 0.08 P_50s), with P_k the level exceeded
 * k % of the time and s for a mean of neighbours. The levels come from the samples themselves in their order: no
 * classes, so no error of classes. Source: IEC 61000-4-15:2010, clause 4.7 and 5.
 */
import { cubeRoot } from '../../base/power.ts';
import { ranked } from '../signal/ranked.ts';

const parts: readonly (readonly [weight: number, exceeded_percent: readonly number[]])[] = [
  [0.0314, [0.1]],
  [0.0525, [0.7, 1, 1.5]],
  [0.0657, [2.2, 3, 4]],
  [0.28, [6, 8, 10, 13, 17]],
  [0.08, [30, 50, 80]],
];

/** P_st of samples of P_inst, evenly spaced (at least 50 a second for the standard's accuracy). */
export function shortTerm(sensation: Float64Array): number {
  const { length } = sensation;
  if (length === 0) throw new RangeError('short-term flicker of no samples');
  const places = parts.flatMap(([weight, exceeded]) =>
    exceeded.map((percent) => ({ weight: weight / exceeded.length, ...placeOf(length, percent) })),
  );
  const levels = ranked(
    sensation,
    places.flatMap(({ below, above }) => [below, above]),
  );
  let sum = 0;
  places.forEach(({ weight, part }, k) => {
    const [below, above] = [levels[2 * k]!, levels[2 * k + 1]!];
    sum += weight * (below + part * (above - below));
  });
  return Math.sqrt(sum);
}

/** Where the level that samples exceed for `percent` of the time lies among them in ascending order: straight between two ranks. */
function placeOf(
  length: number,
  percent: number,
): { readonly below: number; readonly above: number; readonly part: number } {
  const at = (1 - percent / 100) * length - 0.5;
  const below = Math.min(length - 1, Math.max(0, Math.floor(at)));
  return { below, above: Math.min(length - 1, below + 1), part: Math.min(1, Math.max(0, at - below)) };
}

/** P_lt = ∛(mean of P_st³), of twelve ten-minute values over two hours. */
export function longTerm(shortTerms: readonly number[]): number {
  if (shortTerms.length === 0) throw new RangeError('long-term flicker of no values');
  return cubeRoot(shortTerms.reduce((sum, p) => sum + p * p * p, 0) / shortTerms.length);
}
