import { medianInterval_s, type Series } from './series.ts';

/** A gap is an interval longer than this many median intervals of its channel. */
export const gapFactor = 5;

export interface Gap {
  readonly from_s: number;
  readonly to_s: number;
}

/** Gaps of one channel. */
export function gapsOf(series: Series): Gap[] {
  const { time_s } = series;
  const longest = gapFactor * medianInterval_s(time_s);
  const gaps: Gap[] = [];
  for (let i = 1; i < time_s.length; i++) {
    if (time_s[i]! - time_s[i - 1]! > longest) gaps.push({ from_s: time_s[i - 1]!, to_s: time_s[i]! });
  }
  return gaps;
}

/** Spans in which at least one channel has a gap: what overlaps is counted once. */
export function mergeGaps(gaps: readonly Gap[]): Gap[] {
  const sorted = [...gaps].sort((a, b) => a.from_s - b.from_s);
  const merged: Gap[] = [];
  for (const gap of sorted) {
    const last = merged[merged.length - 1];
    if (last !== undefined && gap.from_s < last.to_s) {
      merged[merged.length - 1] = { from_s: last.from_s, to_s: Math.max(last.to_s, gap.to_s) };
    } else merged.push(gap);
  }
  return merged;
}
