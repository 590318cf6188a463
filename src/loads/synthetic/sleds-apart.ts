import type { Demand } from '../demand.ts';
import { Piecewise, type Shape } from '../piecewise.ts';
import { profilesDemand } from '../profiles-demand.ts';
import { Random } from '../random.ts';
import type { Plan } from './plan.ts';

/** The offset of a sled's draws from the draws of the shape itself. */
const scatterSeed = 0x51ed;

/**
 * All sleds follow one shape; sled k of n is later by spread·k/(n − 1) and by a random part of `scatter`, drawn
 * in the order of the sleds. Delays are rounded to ticks.
 */
export function sledsApart(
  plan: Plan,
  shape: Shape,
  apart: { readonly spread_s: number; readonly scatter_s: number },
): Demand {
  const { sleds, seed, tick_s } = plan.context;
  const random = new Random(seed + scatterSeed);
  const profiles: Piecewise[] = [];
  const known = new Map<number, number>();
  const profileOf = Int32Array.from(sleds, (_, k) => {
    const even_s = sleds.length < 2 ? 0 : (apart.spread_s * k) / (sleds.length - 1);
    const drawn_s = apart.scatter_s === 0 ? 0 : apart.scatter_s * random.uniform();
    const delay = plan.rounder.round(even_s + drawn_s);
    let p = known.get(delay);
    if (p === undefined) {
      p = profiles.length;
      known.set(delay, p);
      profiles.push(new Piecewise(shape, delay, tick_s));
    }
    return p;
  });
  return ofProfiles(plan, profiles, profileOf, shape.period_ticks);
}

/** The demand that sleds make which each follow one of `profiles`. */
export function ofProfiles(
  plan: Plan,
  profiles: readonly Piecewise[],
  profileOf: Int32Array,
  period_ticks: number | null,
): Demand {
  const { sleds, tick_s } = plan.context;
  return profilesDemand({
    profiles,
    profileOf,
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks: plan.end,
    tick_s,
    period_ticks,
    rounding_s: plan.rounder.rounding_s,
    bandwidth_Hz: null,
  });
}
