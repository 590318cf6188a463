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

/** A stretch of which every step is kept. */
export interface CloseUp {
  /** Its beginning, then the end of each step [s]. */
  readonly time_s: Float64Array;
  /** Per channel the value at each of these moments, in the order of the record's channels. */
  readonly values: readonly Float32Array[];
}

/**
 * The record: time cut into buckets of uneven width (narrow where things move), and per channel the smallest,
 * largest and mean value inside each bucket, so that no spike is lost; beside it close-ups of the worst edges and of
 * the moments where a kind of quantity was lowest or highest. Bounded: when full, neighbouring buckets merge, and of
 * edges the mildest is given up.
 */
export interface Recording {
  readonly channels: readonly Channel[];
  readonly bucketCount: number;
  /** Bucket edges [s], bucketCount + 1 values. */
  readonly edges_s: Float64Array;
  /** Per channel, bucketCount values each, in the order of `channels`. */
  readonly min: readonly Float32Array[];
  readonly max: readonly Float32Array[];
  readonly mean: readonly Float32Array[];
  /** In time order; none overlaps another. */
  readonly closeUps: readonly CloseUp[];
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
  /** How long the stay lasted that ran when the judged window began, and how long the one had that ran when it ended; 0: none. */
  readonly belowFirst_s: Float64Array;
  readonly belowLast_s: Float64Array;
  readonly above_s: Float64Array;
  readonly aboveAt_s: Float64Array;
  readonly aboveCount: Uint32Array;
  readonly aboveFirst_s: Float64Array;
  readonly aboveLast_s: Float64Array;
}

/** Mean and RMS of a channel over the window. */
export interface MeanSquare {
  readonly channel: string;
  readonly mean: number;
  readonly rms: number;
}

/** Mean and RMS from the beginning of a round of the load, or of a later second of one without rounds, to the window's end. */
export interface RoundSquares {
  readonly from_s: number;
  readonly squares: readonly MeanSquare[];
}

/** Means over adjacent windows of equal width from the start of the judged window, one column per channel. */
export interface WindowMeans {
  readonly width_s: number;
  readonly from_s: number;
  readonly columns: ReadonlyMap<string, Float64Array>;
  /** Each column's own value when the judged window began. */
  readonly at_start: Readonly<Record<string, number>>;
}

/** What a unit kept up for a time, from its 10 ms means over the window. */
export interface Sustained {
  readonly channel: string;
  /** Length of the stretch [s]. */
  readonly over_s: number;
  /** Largest mean of a stretch, and when it began. */
  readonly mean: number;
  readonly mean_s: number;
  /** Highest level stayed above throughout a stretch, and when it began. */
  readonly held: number;
  readonly held_s: number;
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

/** A swing that goes on between edges: of one channel, turning alike, however many stretches it was seen in. */
export interface SustainedSwing {
  readonly channel: string;
  /** Mean swing of the largest stretch, peak to peak, in the channel's unit; its frequency and growth there. */
  readonly swing: number;
  readonly frequency_Hz: number;
  /** Negative where it dies [1/s]. */
  readonly rate_per_s: number;
  /** Beginning of the largest stretch, of the first and end of the last [s]. */
  readonly at_s: number;
  readonly from_s: number;
  readonly to_s: number;
  /** Time in all stretches [s], and how many there were. */
  readonly held_s: number;
  readonly count: number;
  /** How it grew while it was small; null where that was not seen. */
  readonly grew: { readonly frequency_Hz: number; readonly rate_per_s: number } | null;
  /** The load turns as often and by enough. */
  readonly driven_by: 'load' | null;
}

/** Time between edges, by the length of the gap it lay in: from `at_least_s` up to the next entry's. */
export interface GapReading {
  readonly longest_s: number;
  readonly by_length: readonly { readonly at_least_s: number; readonly total_s: number }[];
}

export interface Swings {
  readonly found: readonly SustainedSwing[];
  readonly gaps: GapReading;
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

export interface BarEnd {
  readonly id: string;
  readonly resistance_ohm: number;
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
  /** Periods until the cycle repeated; null where the run does not start in a converged one. */
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
  /** The same from later and later rounds on, at most 64 of them, evenly spread over the window. */
  readonly rounds: readonly RoundSquares[];
  /** 10 ms means of `total.*` channels, of every shelf current, the line voltage of every feeder that gives way (`F1.line_voltage_V`) and every feeder's AC power (`F1.ac_power_W`). */
  readonly means: WindowMeans;
  /** Of every sled's power and battery shelf's current, for the lengths asked for that fit into the window. */
  readonly sustained: readonly Sustained[];
  /** `total.ac_power_W`, `total.line_current_A`, `total.load_W`, the lowest sled's voltage, then what was asked for. */
  readonly streams: readonly Stream[];
  readonly share: ShareReading;
  /** Sustained swings of nodes, shelves, battery shelves and trays between edges. */
  readonly swings: Swings;
  readonly audit: Audit;
  readonly log: readonly LogEntry[];
  /** What held for a while: the record that everything after the engine reads, by beginning. */
  readonly spans: readonly RecordedSpan[];
  /** Resistance of each bar when the run ended: joints may have aged on the way [Ω]. */
  readonly bars: readonly BarEnd[];
  /** What was asked for and the judged window does not show, one phrase each (`unshown.ts`). */
  readonly unshown: readonly string[];
  readonly counters: Counters;
}
