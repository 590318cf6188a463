/** The recording as the bytes of `wake.f32`, and back. */
import type { Recording } from '../engine/result.ts';
import { type WakeLayout, wakeBytes } from './format.ts';

/** Every time first, then every value: so each stands on a multiple of its size. */
export function packWake(recording: Recording): { layout: WakeLayout; bytes: Uint8Array } {
  const { channels, bucketCount, closeUps } = recording;
  const layout = { buckets: bucketCount, channels, close_ups: closeUps.map(({ time_s }) => time_s.length) };
  const bytes = new Uint8Array(wakeBytes(layout));
  let at = 0;
  const put = (column: Float64Array | Float32Array): void => {
    bytes.set(new Uint8Array(column.buffer, column.byteOffset, column.byteLength), at);
    at += column.byteLength;
  };
  put(recording.edges_s.subarray(0, bucketCount + 1));
  for (const { time_s } of closeUps) put(time_s);
  channels.forEach((_, c) => {
    for (const column of [recording.min, recording.max, recording.mean])
      put(column[c]!.subarray(0, bucketCount));
  });
  for (const { values } of closeUps) values.forEach(put);
  return { layout, bytes };
}

/** Views on the bytes (nothing is copied when they start on a multiple of eight). */
export function unpackWake(layout: WakeLayout, bytes: Uint8Array): Recording {
  const { buckets, channels, close_ups } = layout;
  const { buffer, byteOffset } = bytes.byteOffset % 8 === 0 ? bytes : bytes.slice();
  let at = byteOffset;
  const times = (count: number): Float64Array => {
    at += 8 * count;
    return new Float64Array(buffer, at - 8 * count, count);
  };
  const values = (count: number): Float32Array => {
    at += 4 * count;
    return new Float32Array(buffer, at - 4 * count, count);
  };
  const edges_s = times(buckets + 1);
  const moments = close_ups.map(times);
  const columns = channels.map(() => ({
    min: values(buckets),
    max: values(buckets),
    mean: values(buckets),
  }));
  return {
    channels,
    bucketCount: buckets,
    edges_s,
    min: columns.map(({ min }) => min),
    max: columns.map(({ max }) => max),
    mean: columns.map(({ mean }) => mean),
    closeUps: moments.map((time_s) => ({ time_s, values: channels.map(() => values(time_s.length)) })),
  };
}
