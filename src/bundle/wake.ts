/** The recording as the bytes of `wake.f32`, and back. */
import type { Recording } from '../engine/result.ts';
import { type WakeLayout, wakeBytes } from './format.ts';

/** Edges, then smallest and largest values channel by channel. */
export function packWake(recording: Recording): { layout: WakeLayout; bytes: Uint8Array } {
  const n = recording.bucketCount;
  const layout = { buckets: n, channels: recording.channels };
  const bytes = new Uint8Array(wakeBytes(layout));
  new Float64Array(bytes.buffer, 0, n + 1).set(recording.edges_s.subarray(0, n + 1));
  let at = 8 * (n + 1);
  for (let c = 0; c < recording.channels.length; c += 1) {
    new Float32Array(bytes.buffer, at, n).set(recording.min[c]!.subarray(0, n));
    new Float32Array(bytes.buffer, at + 4 * n, n).set(recording.max[c]!.subarray(0, n));
    at += 8 * n;
  }
  return { layout, bytes };
}

/** Views on the bytes (nothing is copied when they start on a multiple of eight). */
export function unpackWake(layout: WakeLayout, bytes: Uint8Array): Recording {
  const n = layout.buckets;
  const aligned = bytes.byteOffset % 8 === 0 ? bytes : bytes.slice();
  const { buffer, byteOffset } = aligned;
  const min: Float32Array[] = [];
  const max: Float32Array[] = [];
  let at = byteOffset + 8 * (n + 1);
  for (let c = 0; c < layout.channels.length; c += 1) {
    min.push(new Float32Array(buffer, at, n));
    max.push(new Float32Array(buffer, at + 4 * n, n));
    at += 8 * n;
  }
  return {
    channels: layout.channels,
    bucketCount: n,
    edges_s: new Float64Array(buffer, byteOffset, n + 1),
    min,
    max,
  };
}
