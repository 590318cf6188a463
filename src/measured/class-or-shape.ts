/**
 * A place within the class of every instrument, where there is one. Else channels that are beyond their class, or whose
 * model is wrong, are taken by shape alone; where they decide the place, that is to be said: they are still known by their
 * edges, but a settling curve agrees with itself at any time by another gain.
 */
import { logarithm } from '../base/logarithm.ts';
import { gainedAt } from './fine.ts';
import { heardWithin, type MeasuredPair } from './pair.ts';
import { type PlacedAt, placeOf, within95 } from './place.ts';
import { chiSquareDeviate, seldom } from './whiteness.ts';

export interface PlacedBy extends PlacedAt {
  /** Whether channels decided it within their class, or by shape alone. */
  readonly by: 'class' | 'shape';
}

/** A place without the channels beyond their class is the same one where it is as sure as this. */
const leastConfidence = 0.95;
/** And about as narrow: over the interval with them, or a sample, whichever is more. */
const mostWider = 2;

/** null where nothing of the shape agrees anywhere. Once more where samples outside the run hid how noisy the others are. */
export function placeByClassOrShape(pairs: readonly MeasuredPair[], near_s: number | null): PlacedBy | null {
  const first = placedOnce(pairs, near_s);
  if (first === null) return null;
  const heard = pairs.map((pair) => heardWithin(pair, first.fine));
  const other = heard.some(({ noise }, c) => Math.abs(logarithm(noise / pairs[c]!.noise)) > Math.LN2);
  return other ? placedOnce(heard, near_s) : first;
}

function placedOnce(pairs: readonly MeasuredPair[], near_s: number | null): PlacedBy | null {
  const byClass = placeOf(pairs, near_s);
  if (byClass?.precision.isNoise) return { ...byClass, by: 'class' };
  const byShape = placeOf(pairs.map(byShapeAlone), near_s);
  if (byShape === null || (byClass !== null && !explainsMore(byShape, byClass)))
    return byClass === null ? null : { ...byClass, by: 'class' };
  const known = pairs.filter((pair) => isWithinClass(pair, byShape));
  const mixed =
    known.length === 0
      ? null
      : placeOf(
          pairs.map((pair) => (known.includes(pair) ? pair : byShapeAlone(pair))),
          near_s,
        );
  if (mixed === null) return { ...byShape, by: 'shape' };
  return { ...mixed, by: isPlacedBy(known, mixed, near_s) ? 'class' : 'shape' };
}

function byShapeAlone(pair: MeasuredPair): MeasuredPair {
  return { ...pair, within: null };
}

/** Whether these channels alone lead to the same place, and about as surely. */
function isPlacedBy(
  known: readonly MeasuredPair[],
  { fine, precision }: PlacedAt,
  near_s: number | null,
): boolean {
  const alone = placeOf(known, near_s);
  if (alone === null || alone.confidence_ratio < leastConfidence) return false;
  const half_s = within95 * alone.precision.at_error_s;
  const interval_s = Math.min(...known.map((pair) => pair.interval_s));
  const most_s = Math.max(mostWider * within95 * precision.at_error_s, interval_s);
  return half_s <= most_s && Math.abs(alone.fine.at_s - fine.at_s) <= most_s;
}

/** Twice the likelihood that gain and bias gain beyond the class is chi-square with two freedoms. */
function isWithinClass(pair: MeasuredPair, { fine, precision }: PlacedAt): boolean {
  const gained = (one: MeasuredPair): number => gainedAt([one], fine.at_s, fine.rate_ratio);
  const more = (gained(byShapeAlone(pair)) - gained(pair)) / memoryIn(precision);
  return chiSquareDeviate(2 * more, 2) <= seldom;
}

/** Twice the likelihood gained is chi-square with a freedom for gain, bias and the place of each channel. */
function explainsMore(shape: PlacedAt, known: PlacedAt): boolean {
  const gained = (shape.fine.gained - known.fine.gained) / memoryIn(shape.precision);
  return gained > 0 && chiSquareDeviate(2 * gained, 2 * shape.fine.channels.length + 1) > seldom;
}

function memoryIn({ whiteness }: PlacedAt['precision']): number {
  return Math.max(1, ...whiteness.map((w) => w.memory));
}
