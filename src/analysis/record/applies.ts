/**
 * When the AC limits apply, read off the record.
 *
 * A start or stop is a unit that leaves or comes back, a short, AC that is lost or has walked in, batteries that take
 * the load or give it back, a parameter that changes, or a change of the load's mean over one period (over 1 s where
 * it has none) by more than 20 % of rated. For 10 s after it bands and dynamic range do not apply; ramps and bus limits
 * do. From AC loss, as each shelf counts it, until walk-in begins no AC limit applies; during walk-in only the ramp
 * over 1 s.
 */
import type { RecordedSpan, Span, SpanKind } from '../../events/spans.ts';
import { type LoadMeans, loadChanges } from './load-changes.ts';
import { joined, without } from './spans.ts';

export const settleTime_s = 10;
const change_ratio = 0.2;

export interface Applies {
  /** Where bands and dynamic range are judged. */
  readonly steady: readonly Span[];
  /** No AC limit at all: AC lost at any shelf, until its walk-in begins. */
  readonly lost: readonly Span[];
  /** Only the ramp over 1 s: any shelf walks in. */
  readonly walkIn: readonly Span[];
  /** What started or stopped, each with the 10 s after it. */
  readonly starts: readonly Span[];
}

/** Nothing left out: for the worst value where a limit does not apply. */
export function appliesAlways(window: Span): Applies {
  return { steady: [window], lost: [], walkIn: [], starts: [] };
}

/** Spans whose beginning and end are a start or stop; one that comes along a ramp is one until it has come. */
export const disturbing: ReadonlySet<SpanKind> = new Set([
  'out',
  'short',
  'ac-lost',
  'walk-in',
  'carrying',
  'altered',
]);

export function appliesIn(
  record: { readonly spans: readonly RecordedSpan[]; readonly window: Span },
  rated_W: number,
  load: LoadMeans | null,
  period_s: number | null,
): Applies {
  const { spans, window } = record;
  const lost = joined(spans.filter(({ kind }) => kind === 'ac-lost'));
  const walkIn = joined(spans.filter(({ kind }) => kind === 'walk-in'));
  const moments = spans
    .filter(({ kind }) => disturbing.has(kind))
    .flatMap(({ from_s, moved_to_s, to_s, open }) => {
      const begins = { from_s, to_s: moved_to_s + settleTime_s };
      return open ? [begins] : [begins, { from_s: to_s, to_s: to_s + settleTime_s }];
    });
  const changes =
    load === null ? [] : loadChanges(load, change_ratio * rated_W, period_s ?? 1, period_s === null);
  const starts = [
    ...moments,
    ...changes.map(({ from_s, to_s }) => ({ from_s, to_s: to_s + settleTime_s })),
  ].sort((a, b) => a.from_s - b.from_s);
  return { steady: without(window, [...starts, ...lost, ...walkIn]), lost, walkIn, starts };
}
