/** A number as a word of a format. */
import type { Format } from './formats.ts';

/** Counts of the nearest word, halves away from 0; what is beyond the format is its end. */
export function wordOf(x: number, { count }: Format): number {
  const counts = Math.sign(x) * Math.floor(Math.abs(x) / count + 0.5);
  const end = 2 ** 31 - 1;
  return counts > end ? end : counts < -end ? -end : counts;
}

/** What that word stands for; an infinite number stays one, as it is compared alone. */
export const asWord = (x: number, format: Format): number =>
  Number.isFinite(x) ? wordOf(x, format) * format.count : x;
