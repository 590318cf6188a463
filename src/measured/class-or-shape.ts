/**
 * A place within the class of every instrument, where there is one; else by shape alone, which is to be said: a channel
 * beyond its class, or a wrong model, is still known by its edges, but a settling curve agrees with itself at any time by
 * another gain.
 */
import { heardWithin, type MeasuredPair } from './pair.ts';
import { type PlacedAt, placeOf } from './place.ts';
import { chiSquareDeviate, seldom } from './whiteness.ts';

export interface PlacedBy extends PlacedAt {
  readonly by: 'class' | 'shape';
}

/** null where nothing of the shape agrees anywhere. Once more where samples outside the run hid how noisy the others are. */
export function placeByClassOrShape(pairs: readonly MeasuredPair[], near_s: number | null): PlacedBy | null {
  const first = placedOnce(pairs, near_s);
  if (first === null) return null;
  const heard = pairs.map((pair) => heardWithin(pair, first.fine));
  const other = heard.some(({ noise }, c) => Math.abs(Math.log2(noise / pairs[c]!.noise)) > 1);
  return other ? placedOnce(heard, near_s) : first;
}

function placedOnce(pairs: readonly MeasuredPair[], near_s: number | null): PlacedBy | null {
  const byClass = placeOf(pairs, near_s);
  if (byClass?.precision.isNoise) return { ...byClass, by: 'class' };
  const byShape = placeOf(
    pairs.map((pair) => ({ ...pair, within: null })),
    near_s,
  );
  if (byShape !== null && (byClass === null || explainsMore(byShape, byClass)))
    return { ...byShape, by: 'shape' };
  return byClass === null ? null : { ...byClass, by: 'class' };
}

/** Twice the likelihood gained is chi-square with a freedom for gain, bias and the place of each channel. */
function explainsMore(shape: PlacedAt, known: PlacedAt): boolean {
  const memory = Math.max(1, ...shape.precision.whiteness.map((w) => w.memory));
  const gained = (shape.fine.gained - known.fine.gained) / memory;
  return gained > 0 && chiSquareDeviate(2 * gained, 2 * shape.fine.channels.length + 1) > seldom;
}
