import { gapFactor } from '../../samples/gaps.ts';
import { between, cut, firstAbove, type Series } from '../../samples/series.ts';
import type { RecordedLoad } from './recorded-load.ts';

/** What is played: a stretch of the total, time counted from its start. */
export interface Stretch {
  readonly series: Series;
  /** Held at the first or last value because not all channels run yet, or no longer [s]. */
  readonly held_s: number;
}

/** Longest time that may be held at an end [s]. */
export function longestHold_s(interval_s: number): number {
  return gapFactor * interval_s;
}

/** Highest power from `from_s` to `to_s`, the straight lines at both ends included [W]. */
export function peakWithin(total: Series, from_s: number, to_s: number): number {
  const { time_s, power_W } = total;
  const n = time_s.length;
  const [from, to] = [Math.max(from_s, time_s[0]!), Math.min(to_s, time_s[n - 1]!)];
  const first = firstAbove(time_s, from);
  let peak_W = first > 0 ? between(total, Math.min(first, n - 1) - 1, from) : power_W[0]!;
  let i = first;
  for (; i < n && time_s[i]! <= to; i++) if (power_W[i]! > peak_W) peak_W = power_W[i]!;
  return i < n && i > 0 ? Math.max(peak_W, between(total, i - 1, to)) : peak_W;
}

/** Whether the recording, its ends held for `hold_s` at most, covers the stretch. */
export function covers(total: Series, from_s: number, to_s: number, hold_s: number): boolean {
  const { time_s } = total;
  const [first, last] = [time_s[0]!, time_s[time_s.length - 1]!];
  return first - from_s <= hold_s && to_s - last <= hold_s && from_s < last && to_s > first;
}

/**
 * The stretch from `from_s` to `to_s`. Where the channels do not start or end together, the short end that only
 * some cover holds the nearest total. Null where the stretch reaches further out than `hold_s`.
 */
export function stretchOf(total: Series, from_s: number, to_s: number, hold_s: number): Stretch | null {
  const { time_s, power_W } = total;
  const first = time_s[0]!;
  const last = time_s[time_s.length - 1]!;
  const lead = Math.max(0, first - from_s);
  const trail = Math.max(0, to_s - last);
  if (!covers(total, from_s, to_s, hold_s)) return null;
  const part = cut(total, Math.max(from_s, first), Math.min(to_s, last));
  const head = lead > 0 ? 1 : 0;
  const n = part.time_s.length;
  const t = new Float64Array(n + head + (trail > 0 ? 1 : 0));
  const p = new Float64Array(t.length);
  for (let i = 0; i < n; i++) t[i + head] = part.time_s[i]! - from_s;
  p.set(part.power_W, head);
  if (lead > 0) p[0] = power_W[0]!;
  if (trail > 0) {
    t[t.length - 1] = to_s - from_s;
    p[p.length - 1] = power_W[power_W.length - 1]!;
  }
  return { series: { time_s: t, power_W: p }, held_s: lead + trail };
}

/** Span of the recording that can be played, ends that may be held included. */
export function playableSpan(load: RecordedLoad): { readonly from_s: number; readonly to_s: number } {
  const { total, duration_s, rate_median_Hz } = load.statement;
  const hold_s = longestHold_s(1 / rate_median_Hz);
  return {
    from_s: total.from_s <= hold_s ? 0 : total.from_s,
    to_s: duration_s - total.to_s <= hold_s ? duration_s : total.to_s,
  };
}
