import { Piecewise, type PiecewiseShape } from './piecewise.ts';
import { Random } from './random.ts';
import type { TickRounder } from './ticks.ts';

/** The offset of a sled's draws from the draws of the shape itself. */
const scatterSeed = 0x51ed;

/** How sleds differ in time: evenly over `spread_s`, and at random over `scatter_s`. */
export interface Apart {
  readonly spread_s: number;
  readonly scatter_s: number;
}

/**
 * All sleds follow one shape; sled k of n is later by spread·k/(n − 1) and by a part of scatter drawn evenly from
 * 0 to 1, in the order of the sleds, from `seed`. Delays are rounded to ticks; sleds of one delay share a profile.
 */
export function shiftedSleds(
  count: number,
  shape: PiecewiseShape,
  apart: Apart,
  {
    seed,
    tick_s,
    rounder,
  }: { readonly seed: number; readonly tick_s: number; readonly rounder: TickRounder },
): { readonly profiles: Piecewise[]; readonly profileOf: Int32Array } {
  const random = new Random(seed + scatterSeed);
  const profiles: Piecewise[] = [];
  const known = new Map<number, number>();
  const profileOf = Int32Array.from({ length: count }, (_, k) => {
    const even_s = count < 2 ? 0 : (apart.spread_s * k) / (count - 1);
    const drawn_s = apart.scatter_s === 0 ? 0 : apart.scatter_s * random.uniform();
    const delay = rounder.round(even_s + drawn_s);
    let p = known.get(delay);
    if (p === undefined) {
      p = profiles.length;
      known.set(delay, p);
      profiles.push(new Piecewise(shape, delay, tick_s));
    }
    return p;
  });
  return { profiles, profileOf };
}
