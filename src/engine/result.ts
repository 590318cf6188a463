/** What a run gives back: the third noun beside network (what) and method (how). */
import type { Channel } from '../channels/channel.ts';
import type { LogEntry } from '../events/log.ts';
import type { RecordedSpan } from '../events/spans.ts';

export type Status = 'ok' | 'collapsed' | 'non_finite' | 'audit_open' | 'stopped';

/** Where a run ended that did not reach its end; beside `audit_open` too, where the books are open as well. */
export interface Failure {
  readonly time_s: number;
  /** State, node or unit by name. */
  readonly name: string;
  readonly last_finite: number;
  readonly cause: string;
}

/**
 * The record: time cut into buckets of uneven width (narrow where things move), and per channel the smallest
 * and largest value reached inside each bucket, so that no spike is lost. Bounded: when full, neighbouring
 * buckets merge.
 */
export interface Recording {
  readonly channels: readonly Channel[];
  readonly bucketCount: number;
  /** Bucket edges [s], bucketCount + 1 values. */
  readonly edges_s: Float64Array;
  /** Per channel, bucketCount values each, in the order of `channels`. */
  readonly min: readonly Float32Array[];
  readonly max: readonly Float32Array[];
}

/** Smallest and largest value of one channel in the window, and when. Exact, not bucketed. */
export interface Extreme {
  readonly channel: string;
  readonly min: number;
  readonly min_s: number;
  readonly max: number;
  readonly max_s: number;
}

/**
 * Stays of node voltages beyond levels. `levels_V` ascends. For node n and level l:
 * `below_s[n * levels + l]` is the longest single stay below the level, `above_s` above it, `…At_s` when that
 * stay began, `…Count` how many stays there were. A stay still running at the end counts up to the end.
 * One table while no battery carries (`normal`), one while any does (`carry`).
 */
export interface Stays {
  readonly nodes: readonly string[];
  readonly levels_V: Float64Array;
  readonly normal: StayTable;
  readonly carry: StayTable;
  /** Time spent carrying [s]. */
  readonly carry_s: number;
}

export interface StayTable {
  readonly below_s: Float64Array;
  readonly belowAt_s: Float64Array;
  readonly belowCount: Uint32Array;
  readonly above_s: Float64Array;
  readonly aboveAt_s: Float64Array;
  readonly aboveCount: Uint32Array;
}

/** Mean and RMS of a channel over the window. */
export interface MeanSquare {
  readonly channel: string;
  readonly mean: number;
  readonly rms: number;
}

/** Means over adjacent windows of equal width from the start of the judged window, one column per channel. */
export interface WindowMeans {
  readonly width_s: number;
  readonly from_s: number;
  readonly columns: ReadonlyMap<string, Float64Array>;
}

/** A uniform, anti-aliased stream for spectra. */
export interface Stream {
  readonly channel: string;
  readonly rate_Hz: number;
  readonly from_s: number;
  readonly samples: Float64Array;
  /** Flat to within 0.1 % up to here [Hz]. */
  readonly flat_to_Hz: number;
}

/** Largest deviation of a shelf's current from the mean, over rated: who, when. */
export interface ShareDeviation {
  readonly ratio: number;
  readonly shelf: string;
  readonly time_s: number;
}

export interface ShareReading {
  /** Later than 0.5 s after an edge, event or mode change. null: no such time in the window. */
  readonly steady: ShareDeviation | null;
  /** From 1 to 20 ms after an edge or event. */
  readonly transient: ShareDeviation | null;
}

/** Where the energy went, one row per device and cause [J], over the window. */
export interface EnergyRow {
  readonly owner: string;
  readonly cause: string;
  readonly kind: 'input' | 'load' | 'loss' | 'stored';
  readonly energy_J: number;
}

export interface Audit {
  readonly rows: readonly EnergyRow[];
  readonly input_J: number;
  readonly load_J: number;
  readonly loss_J: number;
  /** Change of stored energy; batteries' charge counts as stored. */
  readonly stored_J: number;
  /** (input − load − loss − stored) over throughput, and over losses. */
  readonly residual_ratio: number;
  readonly residual_loss_ratio: number;
}

export interface Counters {
  readonly step_s: number;
  readonly steps: number;
  readonly states: number;
  readonly nodes: number;
  readonly branches: number;
  /** Steps thrown away because clamp modes did not settle, and taken again in eighths. */
  readonly mode_retries: number;
  /** Steps of one tick in which clamps or currents did not settle; what that costs shows in the audit. */
  readonly unsettled_steps: number;
  /** Second and later solves within a step. */
  readonly corrections: number;
  readonly factorisations: number;
  readonly cycles_to_converge: number | null;
}

export interface Result {
  readonly status: Status;
  readonly failure: Failure | null;
  /** What is judged: after the warm-up, whole periods where there is one. */
  readonly window: { readonly from_s: number; readonly to_s: number };
  readonly recording: Recording;
  readonly extremes: readonly Extreme[];
  readonly stays: Stays;
  readonly meanSquares: readonly MeanSquare[];
  /** 10 ms means of `total.*` channels, of every shelf current and every feeder's AC power (`A.ac_power_W`). */
  readonly means: WindowMeans;
  /** `total.ac_power_W`, `total.line_current_A`, `total.load_W`, the lowest sled's voltage, then what was asked for. */
  readonly streams: readonly Stream[];
  readonly share: ShareReading;
  readonly audit: Audit;
  readonly log: readonly LogEntry[];
  /** What held for a while: the record that everything after the engine reads, by beginning. */
  readonly spans: readonly RecordedSpan[];
  readonly counters: Counters;
}
