/** The recording as panels ask for it: channels by id and kind, the bucket at a moment, envelopes of groups. */
import type { Channel, ChannelKind } from '../src/channels/channel.ts';
import type { Recording } from '../src/engine/result.ts';
import type { Band, Buckets, Series } from './series.ts';
import { splice } from './splice.ts';

export interface Record extends Buckets {
  readonly bucketCount: number;
  readonly channels: readonly Channel[];
  ofKind(kind: ChannelKind): readonly Channel[];
  series(id: string): Series | null;
  /** Bucket that holds a moment; the nearest one outside the run. */
  bucketAt(t_s: number): number;
  /** Mean value of a channel in a bucket; NaN where there is no such channel. */
  mean(id: string, bucket: number): number;
}

export function makeRecord(recording: Recording): Record {
  const index = new Map(recording.channels.map((channel, k) => [channel.id, k]));
  const { edges_s, moments_s, seriesOf } = splice(recording);
  const bucketCount = moments_s.length;
  const known = new Map<string, Series>();
  const series = (id: string): Series | null => {
    const k = index.get(id);
    if (k === undefined) return null;
    const own = known.get(id) ?? seriesOf(k);
    known.set(id, own);
    return own;
  };
  return {
    edges_s,
    moments_s,
    bucketCount,
    channels: recording.channels,
    ofKind: (kind) => recording.channels.filter((channel) => channel.kind === kind),
    series,
    bucketAt: (t_s) => lastAtOrBefore(edges_s, bucketCount, t_s),
    mean: (id, bucket) => series(id)?.mean[bucket] ?? Number.NaN,
  };
}

/** Largest bucket whose left edge is not after `t_s`, by bisection; 0 before the first. */
function lastAtOrBefore(edges_s: Float64Array, bucketCount: number, t_s: number): number {
  let low = 0;
  let high = bucketCount - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if (edges_s[mid]! <= t_s) low = mid;
    else high = mid - 1;
  }
  return low;
}

/**
 * Lowest and highest value over a group of channels, per bucket; made once. null for an empty group. Members that
 * stay below `dead` in a bucket are no part of it there (a sled that is gone sits at 0 V), unless all do.
 */
export function envelopeOf(
  record: Record,
  ids: readonly string[],
  dead = Number.NEGATIVE_INFINITY,
): Band | null {
  const group = ids.map((id) => record.series(id)).filter((series) => series !== null);
  if (group.length === 0) return null;
  const min = new Float32Array(record.bucketCount).fill(Number.POSITIVE_INFINITY);
  const max = new Float32Array(record.bucketCount).fill(Number.NEGATIVE_INFINITY);
  for (let b = 0; b < record.bucketCount; b += 1) {
    const lives = group.some((series) => series.max[b]! >= dead);
    for (const series of group) {
      if (lives && !(series.max[b]! >= dead)) continue;
      if (series.min[b]! < min[b]!) min[b] = series.min[b]!;
      if (series.max[b]! > max[b]!) max[b] = series.max[b]!;
    }
  }
  return { min, max };
}

/** Which of a group is lowest and which highest in a bucket. */
export function outermostAt(
  record: Record,
  channels: readonly Channel[],
  bucket: number,
  dead = Number.NEGATIVE_INFINITY,
): { readonly lowest: Channel; readonly highest: Channel } | null {
  let lowest: Channel | null = null;
  let highest: Channel | null = null;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const channel of channels) {
    const series = record.series(channel.id);
    if (series === null || series.max[bucket]! < dead) continue;
    if (series.min[bucket]! < low) [low, lowest] = [series.min[bucket]!, channel];
    if (series.max[bucket]! > high) [high, highest] = [series.max[bucket]!, channel];
  }
  return lowest === null || highest === null ? null : { lowest, highest };
}
