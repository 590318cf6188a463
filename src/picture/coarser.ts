/** A recording at less detail: neighbouring buckets joined. */
import type { Recording } from '../engine/result.ts';

/**
 * About so many buckets; those inside a close-up become one, for it shows more than they do. Those between two close-ups are
 * joined evenly. The recording itself where it has no more.
 */
export function coarser(recording: Recording, most: number): Recording {
  const { edges_s, bucketCount: n, min, max, mean } = recording;
  if (n <= most) return recording;
  const first = groups(recording, most);
  const count = first.length - 1;
  const joined = (
    columns: readonly Float32Array[],
    join: (soFar: number, next: number, bucket: number) => number,
  ): Float32Array[] =>
    columns.map((column) => {
      const fewer = new Float32Array(count);
      for (let k = 0; k < count; k += 1) {
        let value = column[first[k]!]!;
        for (let b = first[k]! + 1; b < first[k + 1]!; b += 1) value = join(value, column[b]!, b);
        fewer[k] = value;
      }
      return fewer;
    });
  // Of a bucket's group, so far: the share of this bucket in its width.
  const share = new Float64Array(n);
  for (let k = 0; k < count; k += 1)
    for (let b = first[k]!; b < first[k + 1]!; b += 1)
      share[b] = (edges_s[b + 1]! - edges_s[b]!) / (edges_s[b + 1]! - edges_s[first[k]!]!);
  return {
    ...recording,
    bucketCount: count,
    edges_s: Float64Array.from(first, (b) => edges_s[b]!),
    min: joined(min, (a, b) => (b < a ? b : a)),
    max: joined(max, (a, b) => (b > a ? b : a)),
    mean: joined(mean, (a, b, bucket) => a + share[bucket]! * (b - a)),
  };
}

/** Where each group of buckets begins, and the end. */
function groups(recording: Recording, most: number): readonly number[] {
  const inside = insideCloseUps(recording);
  const n = inside.length;
  const outside = inside.reduce((sum, is) => sum + (is ? 0 : 1), 0);
  const first: number[] = [];
  for (let b = 0; b < n; ) {
    let end = b + 1;
    while (end < n && inside[end] === inside[b]) end += 1;
    const parts = inside[b] ? 1 : Math.min(end - b, Math.ceil(((end - b) * most) / outside));
    for (let k = 0; k < parts; k += 1) first.push(b + Math.floor((k * (end - b)) / parts));
    b = end;
  }
  return [...first, n];
}

/** Buckets all of whose time a close-up shows. */
function insideCloseUps({ edges_s, bucketCount, closeUps }: Recording): readonly boolean[] {
  let next = 0;
  return Array.from({ length: bucketCount }, (_, b) => {
    while (next < closeUps.length && closeUps[next]!.time_s.at(-1)! < edges_s[b + 1]!) next += 1;
    return next < closeUps.length && closeUps[next]!.time_s[0]! <= edges_s[b]!;
  });
}
