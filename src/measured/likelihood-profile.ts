/**
 * The likelihood about a place, looked at instead of computed from slopes: an edge between two instants is met as well
 * from anywhere between them, and a slope knows nothing of that. Offset and gain of each channel follow as well as they
 * can.
 */
import { exponential } from '../base/exponential.ts';
import { gainedAt } from './fine.ts';
import type { MeasuredPair } from './pair.ts';

/** Places to an interval. */
const perInterval = 20;
/** Intervals to either side. */
const intervals = 1.5;
/** ln of the likelihood falls by this to the ends of a 95 % interval: half the 95 % point of chi-square with one freedom. */
const fall95 = 1.92;
/** Depth of the valley about a hill that is another place, as ln of the likelihood for one independent sample. */
export const valley = 4;
/** From one step to the next, farther out. */
const growth = 1.1;

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
  return {
    at_s: places,
    gained: places.map((place) => gainedAt(pairs, place, rate_ratio)),
  };
}

/** The place of the highest point. */
export function topOf({ at_s, gained }: LikelihoodProfile): number {
  return at_s[gained.indexOf(Math.max(...gained))]!;
}

/** A place that was looked at: how far off, how likely, and how much of the way it stands for. */
interface Seen {
  readonly off_s: number;
  readonly gained: number;
  readonly width_s: number;
}

/**
 * How far from a place the farthest lies that is not told from the top, and no nearer than 95 % of the likelihood about it;
 * `memory`: samples for an independent one. Beyond the profile it goes in growing steps to either side, through shallow
 * valleys: on a curve that settles, noise makes several tops, and the highest of them need not be the right one.
 */
export function reachAbout(
  pairs: readonly MeasuredPair[],
  { at_s, rate_ratio }: { readonly at_s: number; readonly rate_ratio: number },
  memory: number,
): number {
  const near = profileAbout(pairs, at_s, rate_ratio);
  const top = Math.max(...near.gained);
  const between_s = near.at_s[1]! - near.at_s[0]!;
  const seen = [...near.at_s].map((place, k): Seen => {
    return { off_s: Math.abs(place - at_s), gained: near.gained[k]!, width_s: between_s };
  });
  const length_s = Math.max(...pairs.map(({ shown }) => shown.to_s - shown.from_s));
  for (const side of [-1, 1]) {
    for (let off_s = near.at_s.at(-1)! - at_s; off_s < length_s; off_s *= growth) {
      const gained = gainedAt(pairs, at_s + side * off_s, rate_ratio);
      if (gained < top - 2 * valley * memory) break;
      seen.push({ off_s, gained, width_s: (growth - 1) * off_s });
    }
  }
  seen.sort((a, b) => a.off_s - b.off_s);
  const shareOf = ({ gained, width_s }: Seen): number => width_s * exponential((gained - top) / memory);
  const all = seen.reduce((sum, place) => sum + shareOf(place), 0);
  let [reach_s, inside] = [0, 0];
  for (const place of seen) {
    if (inside < 0.95 * all || place.gained >= top - fall95 * memory) reach_s = place.off_s;
    inside += shareOf(place);
  }
  return reach_s;
}
