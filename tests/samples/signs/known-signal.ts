/** Signals of known truth for the signs: a busy device as its sensor shows it, and what a fault makes of it. */
import { Random } from '../../../src/loads/random.ts';
import type { Sampled, Sign } from '../../../src/samples/signs/sign.ts';
import { signsOf } from '../../../src/samples/signs/signs-of.ts';

export const rate_Hz = 50;

/** Iterations of 1.5 s between 130 W and 700 W with noise of 4 W, in steps of 0.1 W. */
export function busy(count = 3000, seed = 1): Float64Array {
  const random = new Random(seed);
  return Float64Array.from({ length: count }, (_, k) => {
    const level_W = k % 75 < 60 ? 700 - 60 * Math.cos(k / 3) : 130;
    return Math.round(10 * (level_W + 4 * random.gaussian())) / 10;
  });
}

/** The values with those from `from` to before `to` made another. */
export function changed(
  values: Float64Array,
  from: number,
  to: number,
  of: (value: number, k: number) => number,
): Float64Array {
  return values.map((value, k) => (k >= from && k < to ? of(value, k) : value));
}

export function channel(values: Float64Array, name = 'a', more: Partial<Sampled> = {}): Sampled {
  return {
    name,
    time_s: Float64Array.from(values, (_, k) => k / rate_Hz),
    values,
    written: (value) => `${value} W`,
    rests: true,
    ...more,
  };
}

export const signsIn = (...channels: readonly Float64Array[]): readonly Sign[] =>
  signsOf(channels.map((values, k) => channel(values, 'abcdefgh'[k]))).signs;

/** Kind and channel of each, and when. */
export const short = (signs: readonly Sign[]): string[] =>
  signs.map(({ kind, channel: of, from_s, to_s }) => `${kind} ${of} ${from_s} to ${to_s}`);
