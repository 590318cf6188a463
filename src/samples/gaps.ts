import { medianInterval_s, type Series } from './series.ts';

/** A gap is an interval longer than this many median intervals of its channel. */
export const gapFactor = 5;
/** Where a sample was left out in it, an interval is a gap from here on: the sample would have halved it. */
export const lostFactor = 1.5;

export interface Gap {
  readonly from_s: number;
  readonly to_s: number;
}

/** Gaps of one channel. `lost`: places of samples after which one was left out, rising. */
export function gapsOf(series: Series, lost: readonly number[]): Gap[] {
  const { time_s } = series;
  const median_s = medianInterval_s(time_s);
  const gaps: Gap[] = [];
  let next = 0;
  for (let i = 0; i + 1 < time_s.length; i++) {
    const isLost = lost[next] === i;
    if (isLost) next++;
    const longest_s = (isLost ? lostFactor : gapFactor) * median_s;
    if (time_s[i + 1]! - time_s[i]! > longest_s) gaps.push({ from_s: time_s[i]!, to_s: time_s[i + 1]! });
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
