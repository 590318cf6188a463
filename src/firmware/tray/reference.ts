/**
 * What the trays are to carry together: what the values make of its law (smoothing-law.ts), what of it shows to whoever
 * differentiates it, and where it rests.
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
