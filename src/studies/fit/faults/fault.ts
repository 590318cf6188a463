/** Faults that a recording may have, and the recording as it would be without one. */
import type { MeasuredColumn } from '../../../measured/measurement.ts';

interface OfChannel {
  /** Name of the channel. */
  readonly path: string;
}

/** Where it is only a part of the recording, on the clock of the run [s]; null: from the first stamp, to the last. */
export interface Stretch {
  readonly from_s: number | null;
  readonly to_s: number | null;
}

export type Fault =
  | (OfChannel & Stretch & { readonly kind: 'sign' })
  /** Readings are so many times what they say they are, a power of a thousand. */
  | (OfChannel & Stretch & { readonly kind: 'unit'; readonly factor: number })
  | (OfChannel & Stretch & { readonly kind: 'gain'; readonly gain_ratio: number })
  | (OfChannel & { readonly kind: 'bias'; readonly bias: number })
  /** Its zero moves by so much from the first reading to the last, evenly. */
  | (OfChannel & { readonly kind: 'drift'; readonly by: number })
  /** Its zero moves slowly, by so much about its mean, as so many of the longest half waves over the recording. */
  | (OfChannel & { readonly kind: 'wander'; readonly rms: number; readonly waves: number })
  | (OfChannel & { readonly kind: 'exchanged'; readonly other: string })
  /** Readings that the samples themselves show to be none, or the end of a range; in words. */
  | (OfChannel & { readonly kind: 'readings'; readonly words: string })
  /** Its readings come so much later than those of the others at the same stamps; negative: earlier. */
  | (OfChannel & { readonly kind: 'delay'; readonly later_s: number })
  /** Readings of all channels are means over so long before their stamps. */
  | { readonly kind: 'averaged'; readonly over_s: number }
  /** From a time of the run on the measurement lies so much later than before; negative: earlier. */
  | { readonly kind: 'time lost'; readonly from_s: number; readonly later_s: number }
  /** From a stamp of the file on, stamps are so much later than they should be. */
  | { readonly kind: 'stamps'; readonly at_s: number; readonly by_s: number }
  /** It begins at this time of the run, and not where it was stated to. */
  | { readonly kind: 'place'; readonly at_s: number; readonly stated_s: number }
  /** Stamps run faster than time by this. */
  | { readonly kind: 'clock'; readonly fast_ratio: number };

export interface Recording {
  readonly columns: readonly MeasuredColumn[];
  /** Standard deviation of each. */
  readonly noise: readonly number[];
}

/** If this is the fault, the recording would be that without it. */
export interface Hypothesis {
  readonly fault: Fault;
  readonly without: Recording;
  /** It would lie so much later than it was placed at first [s]; null: where it was found to lie. */
  readonly moved_s: number | null;
}

/** A recording beside what the sensors show of a run at its stamps; NaN where the run does not reach. */
export interface Beside extends Recording {
  readonly simulated: readonly Float64Array[];
  /** Time of the run of each sample. */
  readonly run_s: readonly Float64Array[];
}

/** The recording with another column in one place; its noise is as much larger as its readings. */
export function withColumn(
  { columns, noise }: Recording,
  c: number,
  column: Pick<MeasuredColumn, 'time_s' | 'values'>,
  larger = 1,
): Recording {
  return {
    columns: columns.map((one, k) => (k === c ? { ...one, ...column } : one)),
    noise: noise.map((one, k) => (k === c ? one * larger : one)),
  };
}
