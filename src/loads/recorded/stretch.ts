import { gapFactor } from './gaps.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { cut, type Series } from './series.ts';

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
  if (lead > hold_s || trail > hold_s || from_s >= last || to_s <= first) return null;
  const part = cut(total, Math.max(from_s, first), Math.min(to_s, last));
  const t = Array.from(part.time_s, (time) => time - from_s);
  const p = Array.from(part.power_W);
  if (lead > 0) {
    t.unshift(0);
    p.unshift(power_W[0]!);
  }
  if (trail > 0) {
    t.push(to_s - from_s);
    p.push(power_W[power_W.length - 1]!);
  }
  return { series: { time_s: Float64Array.from(t), power_W: Float64Array.from(p) }, held_s: lead + trail };
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
