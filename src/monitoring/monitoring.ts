/** What monitoring would have seen of a run, beside what happened. */

/** Smallest and largest value and the mean, in the channel's unit. */
export interface Range {
  readonly min: number;
  readonly max: number;
  readonly mean: number;
}

/** Stretches beyond one limit of the bus voltage, and those of them that a reading met. */
export interface Beyond {
  readonly limit: string;
  readonly side: 'lower' | 'upper';
  readonly level_V: number;
  readonly count: number;
  readonly met_count: number;
  /** Longest and shortest stretch, and the longest that no reading met [s]; null: every one was met. */
  readonly longest_s: number;
  readonly shortest_s: number;
  readonly longest_missed_s: number | null;
  /**
   * Share that polls at any phase meet on average, Σ min(1, length/period)/count; null where devices answer with a mean,
   * which may stay within the limit.
   */
  readonly met_by_chance_ratio: number | null;
}

/** One quantity of one device. */
export interface PolledChannel {
  readonly channel: string;
  readonly device: string;
  readonly unit: string;
  readonly time_s: readonly number[];
  readonly readings: readonly number[];
  /** null: the run ended before a reading. */
  readonly seen: Range | null;
  /** At the end of every step, and the mean over time: also what a log of least and greatest in the device shows. */
  readonly truth: Range;
  /** What of the true range the readings span, 0 to 1; null where nothing moved or was read. */
  readonly seen_ratio: number | null;
  /** Of a bus voltage alone; limits that were never passed are left out. */
  readonly beyond: readonly Beyond[];
}

/** The beat between polls and a load that repeats. */
export interface Beat {
  readonly load_period_s: number;
  /** Period that the readings seem to have; null: they stand still. */
  readonly apparent_period_s: number | null;
  /** Periods of the load passed over between readings, to the nearest whole one; 0: nothing folds. */
  readonly passed_over_count: number;
}

export interface PolledPort {
  readonly port: string;
  readonly period_s: number;
  readonly averaging_s: number;
  readonly device_s: number;
  readonly round_s: number;
  readonly devices_count: number;
  readonly most_of_a_kind_count: number;
  /** Devices that the wire has time for in a period. */
  readonly most_in_period_count: number;
  /** null: the load does not repeat. */
  readonly beat: Beat | null;
  readonly channels: readonly PolledChannel[];
}

export interface Monitoring {
  /** Compared from here, the end of the warm-up, to the end of the run [s]. */
  readonly from_s: number;
  readonly to_s: number;
  readonly ports: readonly PolledPort[];
}
