/** What a panel hands to whatever draws on it. */
import type { ScaleLinear } from 'd3';
import type { Outline, Stretch } from './columns.ts';
import type { Pen } from './pen/pen.ts';
import type { Record } from './record.ts';
import type { Buckets } from './series.ts';

/** What a panel draws on. */
export interface Frame {
  readonly pen: Pen;
  readonly width: number;
  readonly height: number;
  readonly stretch: Stretch;
  readonly buckets: Buckets;
  /** Working space for one outline at a time. */
  readonly outline: Outline;
  readonly y: ScaleLinear<number, number>;
  /** Where words stand already in this drawing. */
  readonly words: Box[];
}

/** A line of words [px]. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

/** The buckets and pixels of the stretch shown. */
export function stretchOf(
  { from_s, to_s }: Pick<Stretch, 'from_s' | 'to_s'>,
  record: Record,
  width: number,
): Stretch {
  return {
    from_s,
    to_s,
    width,
    firstBucket: record.bucketAt(from_s),
    lastBucket: record.bucketAt(to_s),
  };
}
