/** Extremes of a channel where part of the run does not count: AC loss, walk-in, carrying batteries. */

import type { Span } from '../../events/spans.ts';
import { type Case, spansOf } from './case.ts';
import { joined, touches } from './spans.ts';

export interface ClearExtreme {
  readonly min: number;
  readonly min_s: number;
  readonly max: number;
  readonly max_s: number;
}

/** Over the recorded buckets inside the window and clear of `left_out`; null where there is none. */
export function extremeClearOf(c: Case, index: number, left_out: readonly Span[]): ClearExtreme | null {
  const { edges_s, min, max, bucketCount } = c.result.recording;
  const { from_s, to_s } = c.result.window;
  let found: { min: number; min_s: number; max: number; max_s: number } | null = null;
  for (let b = 0; b < bucketCount; b++) {
    const from = edges_s[b]!;
    const to = edges_s[b + 1]!;
    if (from < from_s - 1e-9 || to > to_s * (1 + 1e-12) || touches(left_out, from, to)) continue;
    const low = min[index]![b]!;
    const high = max[index]![b]!;
    found ??= { min: low, min_s: from, max: high, max_s: from };
    if (low < found.min) Object.assign(found, { min: low, min_s: from });
    if (high > found.max) Object.assign(found, { max: high, max_s: from });
  }
  return found;
}

/** Where any battery carries or hands back. */
export function carrySpans(c: Case): Span[] {
  return joined(spansOf(c, ['carrying']));
}
