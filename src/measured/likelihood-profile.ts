/**
 * The likelihood about a place, looked at instead of computed from slopes: an edge between two instants is met as well
 * from anywhere between them, and a slope knows nothing of that. Offset and gain of each channel follow as well as they
 * can.
 */
import { gainedAt } from './fine.ts';
import type { MeasuredPair } from './pair.ts';

/** Places to an interval. */
const perInterval = 20;
/** Intervals to either side. */
const intervals = 1.5;
/** ln of the likelihood falls by this to the ends of a 95 % interval: half the 95 % point of chi-square with one freedom. */
const fall95 = 1.92;

export interface LikelihoodProfile {
  readonly at_s: Float64Array;
  readonly gained: Float64Array;
}

export function profileAbout(
  pairs: readonly MeasuredPair[],
  at_s: number,
  rate_ratio: number,
): LikelihoodProfile {
  const interval_s = Math.min(...pairs.map((pair) => pair.interval_s));
  const half = Math.round(perInterval * intervals);
  const places = Float64Array.from(
    { length: 2 * half + 1 },
    (_, k) => at_s + ((k - half) * interval_s) / perInterval,
  );
  return { at_s: places, gained: places.map((place) => gainedAt(pairs, place, rate_ratio)) };
}

/** The place of the highest point. */
export function topOf({ at_s, gained }: LikelihoodProfile): number {
  return at_s[gained.indexOf(Math.max(...gained))]!;
}

/** How far from the middle the farthest place lies that is not told from the top; `memory`: samples for an independent one. */
export function reachOf({ at_s, gained }: LikelihoodProfile, memory: number): number {
  const least = Math.max(...gained) - fall95 * memory;
  const middle = at_s[(at_s.length - 1) / 2]!;
  return at_s.reduce(
    (far, place, k) => (gained[k]! >= least ? Math.max(far, Math.abs(place - middle)) : far),
    0,
  );
}
