/** Over what a slider leads: the usual range where one is declared, else from a quarter of the value to four times of it. */
import type { ParameterSpec } from '../../../src/scenario/parameter.ts';

export interface Range {
  readonly low: number;
  readonly high: number;
  /** Equal steps of the slider are equal differences, equal ratios, or whole numbers. */
  readonly scale: 'even' | 'ratio' | 'whole';
}

/** From this ratio of its ends on a range is led through by ratios. */
const wide = 8;

/** The present value always lies inside, bounds are never left; null where a slider would have no length. */
export function rangeOf(value: number, { min, max, usual, dimension }: ParameterSpec): Range | null {
  const about = [value / 4, value * 4].sort((a, b) => a - b) as [number, number];
  const [first, last] = usual ?? about;
  const low = Math.max(min, Math.min(first, value));
  const high = Math.min(max, Math.max(last, value));
  if (!(high > low)) return null;
  if (dimension === 'count') return { low: Math.ceil(low), high: Math.floor(high), scale: 'whole' };
  return { low, high, scale: low > 0 && high / low >= wide ? 'ratio' : 'even' };
}

/** The value at a place of the slider, 0 to 1. */
export function valueAt(place: number, { low, high, scale }: Range): number {
  if (scale === 'ratio') return low * (high / low) ** place;
  const value = low + (high - low) * place;
  return scale === 'whole' ? Math.round(value) : value;
}

/** The place of a value on the slider, 0 to 1; a value outside stands at an end. */
export function placeOf(value: number, { low, high, scale }: Range): number {
  const place =
    scale === 'ratio' ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  return Number.isFinite(place) ? Math.min(1, Math.max(0, place)) : 0;
}
