/** Extremes of a channel where part of the run does not count: AC loss, walk-in, carrying batteries. */

import type { Result } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import { type Ran, spansOf } from './case.ts';
import { once } from './once.ts';
import { joined, touches } from './spans.ts';

export interface ClearExtreme {
  readonly min: number;
  readonly min_s: number;
  readonly max: number;
  readonly max_s: number;
}

/** Over the recorded buckets inside the window and clear of `left_out`; null where there is none. */
export function extremeClearOf(c: Ran, index: number, left_out: readonly Span[]): ClearExtreme | null {
  const { edges_s, min, max } = c.result.recording;
  const [lows, highs] = [min[index]!, max[index]!];
  const clear = clearBuckets(c, left_out);
  if (clear.length === 0) return null;
  let lowest = clear[0]!;
  let highest = lowest;
  for (let k = 1; k < clear.length; k++) {
    const b = clear[k]!;
    if (lows[b]! < lows[lowest]!) lowest = b;
    if (highs[b]! > highs[highest]!) highest = b;
  }
  return {
    min: lows[lowest]!,
    min_s: edges_s[lowest]!,
    max: highs[highest]!,
    max_s: edges_s[highest]!,
  };
}

/** Of a run, by what is left out: channels of one kind leave the same out. */
const bucketsKnown = once((_: Result) => new WeakMap<readonly Span[], readonly number[]>());

function clearBuckets({ result }: Ran, left_out: readonly Span[]): readonly number[] {
  const known = bucketsKnown(result).get(left_out);
  if (known !== undefined) return known;
  const { edges_s, bucketCount } = result.recording;
  const { from_s, to_s } = result.window;
  const clear: number[] = [];
  for (let b = 0; b < bucketCount; b++) {
    const from = edges_s[b]!;
    const to = edges_s[b + 1]!;
    if (from < from_s - 1e-9 || to > to_s * (1 + 1e-12) || touches(left_out, from, to)) continue;
    clear.push(b);
  }
  bucketsKnown(result).set(left_out, clear);
  return clear;
}

/** Where any battery carries or hands back. */
export function carrySpans(c: Ran): Span[] {
  return joined(spansOf(c, ['carrying']));
}
