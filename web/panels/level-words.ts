/** Where a reader looks closer than what is kept: that a panel draws levels there, and over how long each. */

import type { Stretch } from '../columns.ts';
import type { Frame } from '../frame.ts';
import { duration } from '../numbers.ts';
import type { Buckets } from '../series.ts';
import { ink } from '../theme.ts';
import { gap_px, line_px } from './word-place.ts';

const font = '11px system-ui, sans-serif';

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

/** At the foot on the right; other words keep clear of it. */
export function sayLevels({ pen, width, height, stretch, buckets, words }: Frame): void {
  const longest_s = longestLevel(buckets, stretch);
  if (longest_s === 0) return;
  pen.save();
  pen.font = font;
  pen.textBaseline = 'top';
  const text = `levels: smallest and largest over ${duration(Number(longest_s.toPrecision(2)))}`;
  const own = pen.measureText(text).width;
  const box = { left: width - gap_px - own, top: height - line_px - 1, width: own };
  if (box.left > gap_px) {
    words.push(box);
    pen.fillStyle = ink('muted');
    pen.fillText(text, box.left, box.top + 1);
  }
  pen.restore();
}
