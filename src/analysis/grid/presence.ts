/** Where the AC side may be judged: AC there, and no shelf walking in; and the means that lie there. */

import type { Span } from '../../events/spans.ts';
import { type Case, spansOf } from '../record/case.ts';
import { without } from '../record/spans.ts';

export function withoutLost(c: Case): Span[] {
  return without(c.result.window, [...c.applies.lost, ...c.applies.walkIn]);
}

/** The same, and no event sets the line voltage of the feeder. */
export function undisturbed(c: Case, feeder: string): Span[] {
  const { lost, walkIn } = c.applies;
  const set = spansOf(c, ['altered'], feeder).filter(({ what }) => what === 'ac-sag' || what === 'ac-swell');
  return without(c.result.window, [...lost, ...walkIn, ...set]);
}

/** First and one past the last of `length` samples that lie inside a span. */
export function inside(
  length: number,
  from_s: number,
  rate_Hz: number,
  span: Span,
): readonly [number, number] {
  const first = Math.max(0, Math.ceil((span.from_s - from_s) * rate_Hz - 1e-6));
  const end = Math.min(length, Math.floor((span.to_s - from_s) * rate_Hz + 1e-6));
  return [first, Math.max(first, end)];
}

/** 10 ms means of a stretch, and when the first of them stands. */
export interface Means {
  readonly samples: Float64Array;
  readonly from_s: number;
}

/** The means inside a span. */
export function cutMeans(samples: Float64Array, from_s: number, rate_Hz: number, span: Span): Means {
  const [first, end] = inside(samples.length, from_s, rate_Hz, span);
  return { samples: samples.subarray(first, end), from_s: from_s + first / rate_Hz };
}
