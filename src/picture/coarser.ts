/** A recording at less detail: neighbouring buckets joined. */
import type { Recording } from '../engine/result.ts';

/** Exactly so many buckets, each of as many of the recording's as the others or one more; itself where it has no more. */
export function coarser(recording: Recording, most: number): Recording {
  const { edges_s, bucketCount: n, min, max, mean } = recording;
  if (n <= most) return recording;
  const first = Int32Array.from({ length: most + 1 }, (_, k) => Math.floor((k * n) / most));
  const joined = (
    columns: readonly Float32Array[],
    join: (so_far: number, next: number, bucket: number) => number,
  ): Float32Array[] =>
    columns.map((column) => {
      const fewer = new Float32Array(most);
      for (let k = 0; k < most; k += 1) {
        let value = column[first[k]!]!;
        for (let b = first[k]! + 1; b < first[k + 1]!; b += 1) value = join(value, column[b]!, b);
        fewer[k] = value;
      }
      return fewer;
    });
  // The mean so far reaches from the first of the joined buckets to this one, by width.
  const owner = new Int32Array(n);
  for (let k = 0; k < most; k += 1) owner.fill(first[k]!, first[k]!, first[k + 1]!);
  const share = Float64Array.from(
    owner,
    (from, b) => (edges_s[b + 1]! - edges_s[b]!) / (edges_s[b + 1]! - edges_s[from]!),
  );
  return {
    ...recording,
    bucketCount: most,
    edges_s: Float64Array.from(first, (b) => edges_s[b]!),
    min: joined(min, (a, b) => (b < a ? b : a)),
    max: joined(max, (a, b) => (b > a ? b : a)),
    mean: joined(mean, (a, b, bucket) => a + share[bucket]! * (b - a)),
  };
}
