import type { Gap } from '../../samples/gaps.ts';
import { quantileOf } from '../../samples/quantile.ts';
import { rangeOf } from '../../samples/range.ts';
import { medianInterval_s, type Series, trapezoid_J } from '../../samples/series.ts';
import { renewal_s } from './renewal.ts';
import type { ChannelQuality } from './statement.ts';
import { straightRenewal_s } from './straight-renewal.ts';

/** Figures of one cleaned channel, all on its own stamps. The mean is energy over time, not of the samples. */
export function channelQuality(name: string, series: Series, gaps: readonly Gap[]): ChannelQuality {
  const { time_s, power_W } = series;
  const n = time_s.length;
  const { min_W, max_W } = powerRange(power_W);
  const energy_J = trapezoid_J(time_s, power_W);
  const intervalAt = (share: number): number => quantileOf(n - 1, (i) => time_s[i + 1]! - time_s[i]!, share);
  let interval_min_s = Number.POSITIVE_INFINITY;
  let interval_max_s = 0;
  let resolution_W = Number.POSITIVE_INFINITY;
  let repeats = 0;
  let stale_count = 1;
  let stale_s = 0;
  let flat_top_count = 1;
  let start = 0;
  for (let i = 1; i < n; i++) {
    const dt = time_s[i]! - time_s[i - 1]!;
    if (dt < interval_min_s) interval_min_s = dt;
    if (dt > interval_max_s) interval_max_s = dt;
    const step = Math.abs(power_W[i]! - power_W[i - 1]!);
    if (step > 0) {
      if (step < resolution_W) resolution_W = step;
      start = i;
      continue;
    }
    repeats++;
    const run = i - start + 1;
    if (run > stale_count) {
      stale_count = run;
      stale_s = time_s[i]! - time_s[start]!;
    }
    if (power_W[i] === max_W && run > flat_top_count) flat_top_count = run;
  }
  return {
    name,
    samples: n,
    mean_W: energy_J / (time_s[n - 1]! - time_s[0]!),
    min_W,
    max_W,
    energy_J,
    interval_median_s: medianInterval_s(time_s),
    interval_mean_s: meanInterval_s(time_s, gaps),
    interval_5_s: intervalAt(0.05),
    interval_95_s: intervalAt(0.95),
    interval_99_s: intervalAt(0.99),
    renewal_s: renewal_s(series) ?? straightRenewal_s(series),
    interval_min_s,
    interval_max_s,
    stale_count,
    stale_s,
    repeat_ratio: repeats / (n - 1),
    flat_top_count,
    zero_count: power_W.reduce((count, p) => (p === 0 ? count + 1 : count), 0),
    resolution_W: Number.isFinite(resolution_W) ? resolution_W : null,
  };
}

/** Mean distance of neighbouring stamps outside the gaps [s]: what rounding of the stamps cannot change. */
function meanInterval_s(time_s: Float64Array, gaps: readonly Gap[]): number {
  const inGaps_s = gaps.reduce((all, gap) => all + gap.to_s - gap.from_s, 0);
  const span_s = time_s[time_s.length - 1]! - time_s[0]!;
  return (span_s - inGaps_s) / Math.max(1, time_s.length - 1 - gaps.length);
}

export function powerRange(power_W: Float64Array): { readonly min_W: number; readonly max_W: number } {
  const { lowest, highest } = rangeOf(power_W);
  return { min_W: lowest, max_W: highest };
}
