import type { Demand } from './demand.ts';
import type { Piecewise } from './piecewise.ts';

export interface ProfilesDemandSpec {
  readonly profiles: readonly Piecewise[];
  /** Profile that each sled follows. */
  readonly profileOf: Int32Array;
  /** Share of each sled in the whole load; all sum to 1. */
  readonly shares: ArrayLike<number>;
  readonly duration_ticks: number;
  readonly tick_s: number;
  readonly period_ticks: number | null;
  readonly rounding_s: number;
  readonly bandwidth_Hz: number | null;
}

/** The demand that a set of piecewise-linear profiles makes. Mean, energy and extremes are exact, from the kinks. */
export function profilesDemand(spec: ProfilesDemandSpec): Demand {
  const { profiles, profileOf, shares, duration_ticks, tick_s, period_ticks } = spec;
  if (profileOf.length !== shares.length) {
    throw new RangeError(`${profileOf.length} sleds have a profile but ${shares.length} have a share`);
  }
  const weights = new Float64Array(profiles.length);
  for (let k = 0; k < profileOf.length; k++) weights[profileOf[k]!]! += shares[k]!;
  const nextKink = (tick: number): number => {
    let next = Number.POSITIVE_INFINITY;
    for (let p = 0; p < profiles.length; p++) {
      const kink = profiles[p]!.nextKink(tick);
      if (kink < next) next = kink;
    }
    return next;
  };
  let energy_J = 0;
  for (let p = 0; p < profiles.length; p++)
    energy_J += weights[p]! * profiles[p]!.energy_J(0, duration_ticks);
  const total = (tick: number): number => {
    let sum = 0;
    for (let p = 0; p < profiles.length; p++) sum += weights[p]! * profiles[p]!.at(tick);
    return sum;
  };
  const { peak_W, low_W } = extremes(total, nextKink, Math.min(duration_ticks, period_ticks ?? Infinity));
  return {
    profileCount: profiles.length,
    profileOf,
    mean_W: energy_J / (duration_ticks * tick_s),
    peak_W,
    low_W,
    energy_J,
    period_ticks,
    rounding_s: spec.rounding_s,
    bandwidth_Hz: spec.bandwidth_Hz,
    nextKink,
    kinkAt(tick) {
      let largest = 0;
      for (let p = 0; p < profiles.length; p++) {
        const kink = profiles[p]!.kinkAt(tick);
        if (kink > largest) largest = kink;
      }
      return largest;
    },
    at(out, tick) {
      for (let p = 0; p < profiles.length; p++) out[p] = profiles[p]!.at(tick);
    },
  };
}

/** Highest and lowest total from tick 0 to `end`: a straight piece has its extremes at its ends. */
function extremes(total: (tick: number) => number, nextKink: (tick: number) => number, end: number) {
  let peak_W = Math.max(total(0), total(end));
  let low_W = Math.min(total(0), total(end));
  for (let tick = nextKink(0); tick < end; tick = nextKink(tick)) {
    const power = total(tick);
    if (power > peak_W) peak_W = power;
    if (power < low_W) low_W = power;
  }
  return { peak_W, low_W };
}
