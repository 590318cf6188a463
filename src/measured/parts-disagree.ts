/**
 * Whether the parts of a measurement lie at one place: where stamps jump, or a stretch of time is missing between stamps
 * that go on, the part before and the part behind agree with the run each at a place of its own. They are compared by
 * shape alone, for a gain or a level of the model that is off must not look like that.
 */
import { logarithm } from '../base/logarithm.ts';
import { medianOf } from '../samples/quantile.ts';
import { compareEverywhere, hillsOf } from './coarse.ts';
import { climb, type Fine, gainedAt, refine } from './fine.ts';
import { type MeasuredPair, partOf } from './pair.ts';
import { usualClock } from './precision.ts';
import { wayThrough } from './way-through.ts';
import { memoryOf } from './whiteness.ts';
import { dot } from './within-class.ts';

export interface PartsDisagree {
  /** Time of the measurement at which it is divided [s]. */
  readonly at_s: number;
  /** Time of the run at the first stamp, by the part before and by the part behind [s]. */
  readonly before_s: number;
  readonly behind_s: number;
  /** ln of the likelihood that the part which is off gains by its own place, and that of both at theirs. */
  readonly gained: number;
  readonly agrees: number;
}

/** A step between stamps this much longer than the usual one is a gap; so many of the longest are looked at. */
const leastGap = 1.5;
const mostGaps = 2;
/** A part tells its place by so many samples. */
const leastSamples = 16;
/** It lies elsewhere where its own place leaves less than half of the squares, and it agrees there like this. */
const leastPerSample = Math.LN2 / 2;
const leastCorrelation = 0.9;

/** The division with which the parts agree best, each at its own place; null where none tells them apart. */
export function partsDisagree(pairs: readonly MeasuredPair[], fine: Fine): PartsDisagree | null {
  const byShape = pairs.map((pair) => ({ ...pair, within: null }));
  const found = divisionsOf(byShape, fine).flatMap((at_s) => dividedAt(byShape, fine, at_s) ?? []);
  return found.reduce<PartsDisagree | null>(
    (best, one) => (best === null || one.agrees > best.agrees ? one : best),
    null,
  );
}

/** Behind the longest gaps, and by quarters of what shows the place: a part that is off is whole on one side of one of them. */
function divisionsOf(pairs: readonly MeasuredPair[], { channels }: Fine): number[] {
  const gaps = pairs.flatMap(({ time_s }) => {
    const step = (i: number): number => time_s[i + 1]! - time_s[i]!;
    const usual_s = medianOf(time_s.length - 1, step);
    return [...time_s.keys()]
      .slice(0, -1)
      .filter((i) => step(i) > leastGap * usual_s)
      .map((i) => ({ at_s: time_s[i + 1]!, step_s: step(i) }));
  });
  const longest = gaps.sort((a, b) => b.step_s - a.step_s).slice(0, mostGaps);
  const quarters = [1 / 4, 1 / 2, 3 / 4].map((share) => wayThrough(channels, share));
  return [...new Set([...longest.map(({ at_s }) => at_s), ...quarters])].filter(Number.isFinite);
}

function dividedAt(pairs: readonly MeasuredPair[], fine: Fine, at_s: number): PartsDisagree | null {
  const [before, behind] = [
    pairs.map((pair) => partOf(pair, Number.NEGATIVE_INFINITY, at_s)),
    pairs.map((pair) => partOf(pair, at_s, Number.POSITIVE_INFINITY)),
  ].map((part) => part.filter(({ values }) => isShaped(values)));
  const places = [before!, behind!].map((part) => placeOfPart(part, fine));
  const [one, other] = places;
  if (one == null || other == null) return null;
  const gained = Math.max(one.gained, other.gained);
  if (gained === 0) return null;
  return { at_s, before_s: one.at_s, behind_s: other.at_s, gained, agrees: one.agrees + other.agrees };
}

interface PlaceOfPart {
  readonly at_s: number;
  /** ln of the likelihood there, and what of it its own place gains; 0 where that is not clearly elsewhere. */
  readonly agrees: number;
  readonly gained: number;
}

function isShaped(values: Float64Array): boolean {
  return values.length >= leastSamples && values.some((value) => value !== values[0]);
}

/** Where a part lies by itself; null where it has no place. */
function placeOfPart(part: readonly MeasuredPair[], { at_s, rate_ratio }: Fine): PlaceOfPart | null {
  if (part.length === 0) return null;
  const coarse = compareEverywhere(part);
  const [top] = hillsOf(coarse, 0);
  if (top === undefined) return null;
  // A clock that was taken out may be what makes the best of a jump: without it the part may agree better.
  const own = [rate_ratio, 0]
    .map((rate) => refine(part, climb(part, top, coarse.step_s, rate), rate, false))
    .reduce((a, b) => (b.gained > a.gained ? b : a));
  const interval_s = Math.max(...part.map((pair) => pair.interval_s));
  const length_s = Math.max(...part.map(({ time_s }) => time_s.at(-1)!));
  const place = { at_s: own.at_s, agrees: own.gained, gained: 0 };
  const isNear = Math.abs(own.at_s - at_s) < 2 * Math.max(interval_s, coarse.step_s, usualClock * length_s);
  if (isNear || !own.channels.every(({ correlation_ratio }) => correlation_ratio >= leastCorrelation))
    return place;
  const there = climb(part, at_s, coarse.step_s, rate_ratio);
  const count = own.channels.reduce((sum, { left }) => sum + left.length, 0);
  const more = own.gained - gainedAt(part, there, rate_ratio);
  // As many samples as are independent where the part lies by itself: at a wrong place all are alike.
  const memory = Math.max(
    1,
    ...own.channels.map(({ left }) => memoryOf(left, dot(left, left) / left.length)),
  );
  const gained = more / memory - 2 * logarithm(count);
  return more > leastPerSample * count && gained > 0 ? { ...place, gained } : place;
}
