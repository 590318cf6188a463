/**
 * A value and its interval in digits that belong together: the half width has two, and the value, or either end, ends with
 * the second of them.
 */
import { logarithm } from '../../base/logarithm.ts';
import { type Dimension, formatQuantity } from '../../base/quantity.ts';

const ofWidth = 2;

/** `10.040 ms ± 54 µs`; without a width that is known four digits of the value. */
export function withHalfWidth(value: number, half: number, dimension: Dimension): string {
  return `${endingWith(value, half, dimension)} ± ${halfWidthText(half, dimension)}`;
}

export function halfWidthText(half: number, dimension: Dimension): string {
  return formatQuantity(half, dimension, ofWidth);
}

/** `692.9 µΩ to 711.2 µΩ`. */
export function rangeText([low, high]: readonly [number, number], dimension: Dimension): string {
  const half = (high - low) / 2;
  return `${endingWith(low, half, dimension)} to ${endingWith(high, half, dimension)}`;
}

/** The value down to the second digit of a half width, zeros too. */
export function endingWith(value: number, half: number, dimension: Dimension): string {
  if (!(half > 0 && Number.isFinite(half) && Number.isFinite(value)))
    return formatQuantity(value, dimension, 4);
  const place = decadeOf(Number(half.toPrecision(ofWidth))) - ofWidth + 1;
  const digits = value === 0 ? 1 : decadeOf(value) - place + 1;
  const shown = digits < 1 ? 0 : Number(value.toPrecision(Math.min(15, digits)));
  const text = formatQuantity(shown, dimension);
  const number = /^-?[\d.]+/.exec(text)?.[0];
  if (number === undefined || shown === 0) return text;
  // The prefix of the unit, as a power of ten.
  const power = Math.round(logarithm(shown / Number(number)) / Math.LN10);
  return Number(number).toFixed(Math.max(0, power - place)) + text.slice(number.length);
}

/** The power of ten of a number's first digit. */
function decadeOf(value: number): number {
  return Number(value.toExponential().split('e')[1]);
}
