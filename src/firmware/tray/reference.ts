/**
 * What the trays are to carry together: three references over one memory w, the smoothed load.
 *
 *   load-following     w ← w + (T/τ_s)(P_hat − w)                P = P_hat − w
 *   source-ramp        w ← w + clamp(P_hat − w, ±R T)             P = P_hat − w
 *   source-high-pass   w ← w + (k T/τ_s)(s − w)                   P ← P + min(1, T/τ_f)(k (s − w) − P)
 * P_hat = s + q is the load as both sums show it, s the source. The first two are feed-forward: they see the load
 * itself, and smooth as far up as their latency lets them. The third is feedback on the source alone: of what is
 * fast it leaves 1/(1 + k), and below it is the same first-order lag, with (1 + k) τ_s/k.
 * In all three N E + τ_s w of an unclamped group does not move with a slow load, or nearly so for the ramp.
 * The equations stand in smoothing-law.ts; here is what the values make of them, and where they rest.
 */
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import { type ExposedCell, sizes } from '../exposed.ts';
import { referenceKind, type SmoothingLaw, type SmoothingMemory } from './smoothing-law.ts';

const kinds = {
  'load-following': referenceKind.loadFollowing,
  'source-ramp': referenceKind.sourceRamp,
  'source-high-pass': referenceKind.sourceHighPass,
} as const;

/** The smoothing law of `count` trays as the values tune it. */
export function smoothingLawOf(values: SmoothingValues, count: number): SmoothingLaw {
  const { period_s, time_constant_s, feedback_gain_ratio: k, feedback_lag_s, leak_time_s } = values;
  const isHighPass = values.reference === 'source-high-pass';
  return {
    count,
    reference: kinds[values.reference],
    follow_ratio: isHighPass ? (k * period_s) / time_constant_s : period_s / time_constant_s,
    ramp_W: values.source_ramp_W_per_s * period_s,
    feedback_gain_ratio: k,
    feedback_ratio: feedback_lag_s > period_s ? period_s / feedback_lag_s : 1,
    fadesWhenLost: values.on_lost === 'decay',
    lost_keep_ratio: leak_time_s > period_s ? 1 - period_s / leak_time_s : 0,
    assist_ratio: values.assist_ratio,
    dead_band_ratio: values.dead_band_ratio,
  };
}

export class Reference implements SmoothingMemory {
  smoothed_W = 0;
  total_W = 0;
  private readonly values: SmoothingValues;

  constructor(values: SmoothingValues) {
    this.values = values;
  }

  /** The smoothed load; with feedback also what the trays carry together, which the loop remembers. */
  memory(): readonly ExposedCell[] {
    const smoothed: ExposedCell = {
      label: 'smoothed load',
      size: sizes.power_W,
      get: () => this.smoothed_W,
      set: (value) => {
        this.smoothed_W = value;
      },
    };
    const total: ExposedCell = {
      label: 'feedback command',
      size: sizes.power_W,
      get: () => this.total_W,
      set: (value) => {
        this.total_W = value;
      },
    };
    return this.values.reference === 'source-high-pass' ? [smoothed, total] : [smoothed];
  }

  /** Where w rests when source and trays give this [W]. */
  resting_W(source: number, trays: number): number {
    return this.values.reference === 'source-high-pass' ? source : source + trays;
  }

  /** What the trays carry together at a held load and a held w [W]: with feedback the source is the rest of it. */
  restingTotal_W(load: number, w: number): number {
    const { reference, feedback_gain_ratio: k } = this.values;
    return reference === 'source-high-pass' ? (k * (load - w)) / (1 + k) : load - w;
  }
}
