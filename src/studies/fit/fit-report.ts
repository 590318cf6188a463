import type { Dimension } from '../../base/quantity.ts';
import type { Scale } from '../../measured/scale.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { ClockOfFit } from './clock.ts';
import type { HiddenDrift } from './hidden-drift.ts';
import type { Misfit } from './misfit.ts';
import type { RestsOn } from './rests-on.ts';
import type { Explanation } from './would-explain.ts';

/** RMS of what is left of a channel within a band [its unit]; null where the measurement cannot tell. */
export interface FitBand {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly rms_before: number | null;
  readonly rms_after: number | null;
}

/** A channel measured and as its sensor shows the model, before and after: of each stretch of time the sample that is furthest off. */
export interface LaidCurves {
  /** On the clock of the run. */
  readonly time_s: readonly number[];
  readonly measured: readonly number[];
  /** null where the run ends before. */
  readonly before: readonly (number | null)[];
  readonly after: readonly (number | null)[];
}

export interface FitResult {
  readonly value: number;
  /** 95 % interval by its profile; null where the measurement does not bound the value, or the rest is not noise. */
  readonly interval: readonly [number, number] | null;
  /** The same from the slopes alone, as if the model were straight over it. */
  readonly linear_interval: readonly [number, number] | null;
  /** Along its profile: values that were tried, with the root of what the sum of squares grows by over the noise. */
  readonly profile: readonly { readonly value: number; readonly t: number }[];
  readonly unit: string;
  readonly dimension: Dimension;
  readonly start: number;
  readonly range: readonly [number, number];
  /** The value stands at an end of its range: the truth may lie beyond. */
  readonly at_end: boolean;
}

export interface FitReport {
  /** What the file shows of being wrong by itself, and by sizes beside the model; a sentence each. */
  readonly doubts: readonly string[];
  readonly result: Readonly<Record<string, FitResult>>;
  /** RMS of measured less simulated over the noise of each channel, all channels together. */
  readonly error_before: number;
  readonly error_after: number;
  /** Root of the growth at which an interval of 95 % ends: Student's factor. */
  readonly profile_end: number;
  readonly channels: readonly {
    readonly channel: string;
    readonly unit: string;
    readonly samples: number;
    readonly noise: number;
    readonly rms_before: number;
    readonly rms_after: number;
    readonly bands: readonly FitBand[];
    readonly laid: LaidCurves;
    /** Gain and bias against the model with the values found. */
    readonly scale: Scale;
  }[];
  /** Groups of parameters of which only a combination is known. */
  readonly cannot_tell_apart: readonly (readonly string[])[];
  readonly without_effect: readonly string[];
  readonly correlation: Readonly<Record<string, Readonly<Record<string, number | null>>>>;
  /** null where it has no finite number. */
  readonly condition: number | null;
  /**
   * Channels whose rest is not noise, or whose scale their instrument does not explain, worst first. Where there is one, or
   * the clock is off, no interval is given.
   */
  readonly misfit: readonly Misfit[];
  /** Faults of the recording, and parameters that were not adjusted, that would explain the misfit or a part of it; best first. */
  readonly would_explain: readonly Explanation[];
  readonly clock: ClockOfFit;
  /** Parameters that were kept and that a found value rests on by more than its interval; where there is no misfit. */
  readonly rests_on: readonly RestsOn[];
  /** Drifts of a zero that would move a value out of its interval unseen; where there is no misfit. */
  readonly hidden_drifts: readonly HiddenDrift[];
  /** Sum of squares where each search began and where it ended, as RMS over the noise. */
  readonly searches: readonly { readonly from: number; readonly to: number }[];
  readonly measured_at_s: number;
  /** 95 % interval of a place that was found; null where it was given or is open, or what is left is not noise. */
  readonly measured_at_interval_s: readonly [number, number] | null;
  /** The place is not bounded where it was looked for, and so are values that depend on it. */
  readonly measured_at_open: boolean;
  readonly iterations: number;
  readonly runs: number;
  readonly converged: boolean;
  /** The changes that carry the found values over into a run. */
  readonly changes: readonly Change[];
}
