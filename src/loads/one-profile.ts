import type { Demand } from './demand.ts';
import type { LoadContext } from './load-problem.ts';
import { Piecewise, type PiecewiseShape } from './piecewise.ts';
import { profilesDemand } from './profiles-demand.ts';

/** Demand in which all sleds follow one synthetic shape, each by its share. */
export function oneProfile(shape: PiecewiseShape, context: LoadContext, rounding_s: number): Demand {
  const { sleds, tick_s, duration_s } = context;
  return profilesDemand({
    profiles: [new Piecewise(shape, 0, tick_s)],
    profileOf: new Int32Array(sleds.length),
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks: Math.round(duration_s / tick_s),
    tick_s,
    period_ticks: shape.period_ticks,
    rounding_s,
    bandwidth_Hz: null,
  });
}
