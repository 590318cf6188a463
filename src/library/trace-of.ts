/** One channel of a run's record against time. */
import { BadInput } from '../base/problem.ts';
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

/** `channel`: its id, for example `A.S1.voltage_V` or `total.ac_power_W`. Throws BadInput where there is none. */
export function traceOf(result: Result, channel: string): ChannelTrace {
  // A result that went through JSON has its columns no longer.
  const recording = result?.recording;
  if (!(recording?.edges_s instanceof Float64Array))
    throw refused(
      'first argument',
      'no result of a run',
      'the result of run(), or of a bundle',
      'write traceOf(run(…).result, channel)',
    );
  if (typeof channel !== 'string')
    throw refused(
      'channel',
      `a ${typeof channel}`,
      'the id of a channel as text',
      "write for example 'total.ac_power_W'",
    );
  const { channels, bucketCount, edges_s, min, max, mean } = recording;
  const k = channels.findIndex(({ id }) => id === channel);
  if (k < 0) {
    const ids = channels.map(({ id }) => id);
    const near = nearestWords(String(channel), ids, 1)[0];
    throw refused(
      'channel',
      `no channel ${channel} among ${channels.length}`,
      'the id of a channel of the run',
      near === undefined ? `one of them is ${ids[0]}` : `did you mean ${near}?`,
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

function refused(path: string, found: string, expected: string, mend: string): BadInput {
  return new BadInput([{ severity: 'error', path, found, expected, mend }]);
}
