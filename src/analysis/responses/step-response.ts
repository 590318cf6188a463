/**
 * The answer of one quantity to a step, read off its record: where it ends, how far it goes beyond, how far it swings
 * back, and from when on it stays within a band about where it ends.
 *
 * Overshoot and settling time in the sense of IEC 60050-351 (from memory): the largest transient deviation from the final
 * steady value, over the change; the time from the step until the deviation stays within a stated tolerance. The final
 * value is read where the stretch ends, so that a step which has not come to rest says so.
 */

/** One channel's buckets: edges [s], and the smallest, largest and mean value in each. */
export interface Trace {
  readonly edges_s: ArrayLike<number>;
  readonly min: ArrayLike<number>;
  readonly max: ArrayLike<number>;
  readonly mean: ArrayLike<number>;
}

/** A step, and the stretches before and after it, in seconds: from the step before to the next one. */
export interface StepStretch {
  readonly before_s: number;
  readonly at_s: number;
  readonly until_s: number;
}

export interface StepResponse {
  /** Means over the last fifth before the step, and of the stretch after it. */
  readonly start: number;
  readonly end: number;
  /** Largest deviation from the end after the step, the start's included: what the bands are shares of. */
  readonly span: number;
  /** How far it goes beyond the end, in the direction of the change. */
  readonly overshoot: number;
  /** Over the change; null where it comes back to where it was, within 5 % of the span. */
  readonly overshoot_ratio: number | null;
  /** How far it swings to the other side: past the end after the overshoot, or past the start the wrong way. */
  readonly undershoot: number;
  readonly undershoot_ratio: number | null;
  /** From the step until it stays within 5 % and 2 % of the span about the end; null: not before the last fifth. */
  readonly settling_5_s: number | null;
  readonly settling_2_s: number | null;
}

/** What of a stretch is looked at for where it ends. */
const tail_ratio = 0.2;

/** A change smaller than this part of the span is none: the quantity comes back. */
const back_ratio = 0.05;

/** Fewer buckets than this tell no response. */
const fewest = 20;

/** Null where the record holds too little of either stretch. Times are exact to a bucket. */
export function stepResponse(trace: Trace, { before_s, at_s, until_s }: StepStretch): StepResponse | null {
  const { edges_s, min, max } = trace;
  const first = bucketFrom(edges_s, at_s);
  const last = bucketFrom(edges_s, until_s) - 1;
  if (last - first + 1 < fewest || !(at_s > before_s)) return null;
  const start = meanOf(trace, at_s - tail_ratio * (at_s - before_s), at_s);
  const rest_s = until_s - tail_ratio * (until_s - at_s);
  const end = meanOf(trace, rest_s, until_s);
  if (!Number.isFinite(start) || !Number.isFinite(end)) return null;
  let [lowest, highest] = [start, start];
  for (let k = first; k <= last; k++) {
    lowest = Math.min(lowest, min[k]!);
    highest = Math.max(highest, max[k]!);
  }
  const change = end - start;
  const span = Math.max(highest - end, end - lowest);
  const comesBack = Math.abs(change) <= back_ratio * span;
  const rises = comesBack ? highest - end >= end - lowest : change > 0;
  // Beyond the end in the direction of the change, then what lies on the other side of it.
  const beyond = (k: number): number => (rises ? max[k]! - end : end - min[k]!);
  const behind = (k: number): number => (rises ? end - min[k]! : max[k]! - end);
  let [overshoot, peak] = [0, last];
  for (let k = first; k <= last; k++) {
    if (beyond(k) <= overshoot) continue;
    [overshoot, peak] = [beyond(k), k];
  }
  let undershoot = Math.max(0, rises ? start - lowest : highest - start);
  for (let k = peak + 1; k <= last; k++) undershoot = Math.max(undershoot, behind(k));
  const settling_s = (band_ratio: number): number | null => {
    const k = lastBeyond(trace, first, last, end, band_ratio * span);
    const settled_s = k < first ? at_s : edges_s[k + 1]!;
    return settled_s > rest_s ? null : settled_s - at_s;
  };
  return {
    start,
    end,
    span,
    overshoot,
    overshoot_ratio: comesBack ? null : overshoot / Math.abs(change),
    undershoot,
    undershoot_ratio: comesBack ? null : undershoot / Math.abs(change),
    settling_5_s: settling_s(0.05),
    settling_2_s: settling_s(0.02),
  };
}

/** The last bucket from `first` to `last` that leaves a band about `end`; first − 1 where none does. */
function lastBeyond({ min, max }: Trace, first: number, last: number, end: number, band: number): number {
  let k = last;
  while (k >= first && Math.max(max[k]! - end, end - min[k]!) <= band) k--;
  return k;
}

/** The first bucket that begins at a time or later. */
function bucketFrom(edges_s: ArrayLike<number>, time_s: number): number {
  let [low, high] = [0, edges_s.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (edges_s[middle]! >= time_s - 1e-9) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Mean over a stretch, by the part of each bucket that lies in it. */
function meanOf({ edges_s, mean }: Trace, from_s: number, to_s: number): number {
  let [sum, held_s] = [0, 0];
  for (let k = Math.max(0, bucketFrom(edges_s, from_s) - 1); k < mean.length && edges_s[k]! < to_s; k++) {
    const part_s = Math.min(edges_s[k + 1]!, to_s) - Math.max(edges_s[k]!, from_s);
    if (!(part_s > 0)) continue;
    sum += part_s * mean[k]!;
    held_s += part_s;
  }
  return sum / held_s;
}
