import type { Sign } from '../../samples/signs/sign.ts';
import type { HowRecorded } from './how-recorded.ts';
import type { StatedPlace } from './stated-place.ts';

/** What a recording is worth: what was read, what was taken for granted, what was changed. Names carry units. */
export interface QualityStatement {
  readonly file: string;
  readonly sha256: string;
  /** Rows of the file below its header, whatever they hold. */
  readonly rows: number;
  readonly channels: readonly ChannelQuality[];
  /** Date and time of the first stamp, UTC; null where stamps are relative. */
  readonly start: string | null;
  /** What the names of the columns, or lines above the rows, say of where it was measured. */
  readonly place: StatedPlace;
  /** What lines above the rows say of how it was recorded. */
  readonly how: HowRecorded;
  /** From the first stamp of any channel to the last. */
  readonly duration_s: number;
  /** Of the slowest channel: one over the median of its intervals. */
  readonly rate_median_Hz: number;
  /** Of the slowest channel: intervals outside gaps by their time. Rounded stamps leave it as it is. */
  readonly rate_mean_Hz: number;
  /**
   * Highest frequency the recording shows: 0.44/T, with T the longest of the median interval, the mean interval
   * (where it is longer by more than 2 %: the median of rounded stamps is shorter than the truth), the time in which
   * the sensor renews and the time over which it averages. A mean over T attenuates by |sin(πfT)/(πfT)|, which
   * is 1/√2 (−3 dB) at f = 0.443/T.
   */
  readonly bandwidth_Hz: number;
  /** What that T is. */
  readonly bandwidth_by: 'rate' | 'mean rate' | 'renewal' | 'averaging' | 'AC side';
  /** Share of the duration that samples cover, gaps left out. */
  readonly coverage_ratio: number;
  /**
   * Spans where a channel has no sample for more than five of its median intervals, or for more than one and a half
   * in which a sample was left out; bridged by a straight line.
   */
  readonly gaps_count: number;
  readonly gap_total_s: number;
  readonly duplicates_count: number;
  /** Rows whose stamp lies before that of the row above. */
  readonly unsorted_count: number;
  readonly edits: readonly Edit[];
  /** What the samples show of being wrong: each may also be true. */
  readonly signs: readonly Sign[];
  /** What the file says against itself, and edits that move the energy by more than 1 %, in plain sentences. */
  readonly warnings: readonly string[];
  /** Shifts of channels against the first one, where alignment was asked for. */
  readonly alignment: readonly Alignment[];
  /** The sum of all channels over the span that all of them cover. */
  readonly total: RecordedTotal;
  /** What the names and values of the file were taken to mean, in plain sentences. */
  readonly inferred: readonly string[];
}

export interface RecordedTotal {
  readonly from_s: number;
  readonly to_s: number;
  readonly mean_W: number;
  readonly min_W: number;
  readonly max_W: number;
  readonly energy_J: number;
}

export interface ChannelQuality {
  readonly name: string;
  readonly samples: number;
  readonly mean_W: number;
  readonly min_W: number;
  readonly max_W: number;
  readonly energy_J: number;
  readonly interval_median_s: number;
  /** Outside gaps. */
  readonly interval_mean_s: number;
  readonly interval_min_s: number;
  readonly interval_max_s: number;
  /** Jitter: intervals that 5, 95 and 99 % of all are no longer than. */
  readonly interval_5_s: number;
  readonly interval_95_s: number;
  readonly interval_99_s: number;
  /** How often the sensor really renews, where values repeat by a clock of its own; null where they do not. */
  readonly renewal_s: number | null;
  /** Longest run of one and the same value: samples and time. A sensor that froze shows here. */
  readonly stale_count: number;
  readonly stale_s: number;
  /** Share of samples that repeat the one before: high where a sensor is read faster than it renews. */
  readonly repeat_ratio: number;
  /** Longest run at the highest value: three or more look like a sensor at its end of scale. */
  readonly flat_top_count: number;
  /** Samples of exactly 0 W: kept as recorded, but a dropout may have been written so. */
  readonly zero_count: number;
  /** Smallest step between neighbouring samples; null where all are equal. */
  readonly resolution_W: number | null;
}

/** One thing done to the rows, with the energy of the recording before and after it. */
export interface Edit {
  readonly what: string;
  readonly count: number;
  readonly energy_before_J: number;
  readonly energy_after_J: number;
}

/** How one channel was laid onto the first; a moved one is held where it no longer reaches. */
export interface Alignment {
  readonly channel: string;
  /** The channel was late by this [s]; it was moved back where `moved`. */
  readonly lag_s: number;
  /** Correlation coefficient at that lag. */
  readonly correlation_ratio: number;
  /** Correlation there less the highest elsewhere, over it: near 0 another lag would do as well. */
  readonly confidence_ratio: number;
  readonly moved: boolean;
  /** Of the channel [J]. */
  readonly energy_before_J: number;
  readonly energy_after_J: number;
}
