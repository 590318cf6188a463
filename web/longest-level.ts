/** Where a reader looks closer than what is kept step by step: how long the levels are that are drawn there. */
import type { Stretch } from './columns.ts';
import type { Buckets } from './series.ts';

/** A level this wide is seen as one [px]. */
const seen_px = 16;

/** The longest level in sight [s]: a bucket that stands for a stretch and not for a moment; 0 where none is seen as such. */
export function longestLevel({ edges_s, moments_s }: Buckets, stretch: Stretch): number {
  const { from_s, to_s, width, firstBucket, lastBucket } = stretch;
  const seen_s = (seen_px / width) * (to_s - from_s);
  let longest_s = 0;
  for (let b = firstBucket; b <= lastBucket; b += 1) {
    if (!Number.isNaN(moments_s[b]!)) continue;
    longest_s = Math.max(longest_s, edges_s[b + 1]! - edges_s[b]!);
  }
  return longest_s >= seen_s ? longest_s : 0;
}
