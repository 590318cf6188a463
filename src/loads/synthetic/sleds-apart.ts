import type { Demand } from '../demand.ts';
import type { Piecewise, PiecewiseShape } from '../piecewise.ts';
import { profilesDemand } from '../profiles-demand.ts';
import { type Apart, shiftedSleds } from '../sled-shifts.ts';
import type { Plan } from './plan.ts';

/** All sleds follow one shape, each with its own shift. */
export function sledsApart(plan: Plan, shape: PiecewiseShape, apart: Apart): Demand {
  const { sleds, seed, tick_s } = plan.context;
  const { profiles, profileOf } = shiftedSleds(sleds.length, shape, apart, {
    seed,
    tick_s,
    rounder: plan.rounder,
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
