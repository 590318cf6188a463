/** One channel of a run's record against time. */
import type { Result } from '../engine/result.ts';
import { nearestWords } from '../scenario/text/nearest.ts';

/** A channel in buckets of uneven width, narrow where things move: no spike is lost. */
export interface ChannelTrace {
  readonly channel: string;
  /** SI unit. */
  readonly unit: string;
  /** Edges of the buckets [s], one more than buckets. */
  readonly edges_s: Float64Array;
  /** Smallest, largest and mean value in each bucket. */
  readonly min: Float32Array;
  readonly max: Float32Array;
  readonly mean: Float32Array;
}

/** `channel`: its id, for example `A.S1.voltage_V` or `total.ac_power_W`. Throws RangeError where there is none. */
export function traceOf({ recording }: Result, channel: string): ChannelTrace {
  const { channels, bucketCount, edges_s, min, max, mean } = recording;
  const k = channels.findIndex(({ id }) => id === channel);
  if (k < 0) {
    const near = nearestWords(
      channel,
      channels.map(({ id }) => id),
      1,
    )[0];
    throw new RangeError(
      `no channel ${channel} among ${channels.length}${near === undefined ? '' : `; did you mean ${near}?`}`,
    );
  }
  return {
    channel,
    unit: channels[k]!.unit,
    edges_s: edges_s.slice(0, bucketCount + 1),
    min: min[k]!.slice(0, bucketCount),
    max: max[k]!.slice(0, bucketCount),
    mean: mean[k]!.slice(0, bucketCount),
  };
}
