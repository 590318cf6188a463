/**
 * What a unit kept up across the beginning of the judged window, where it is known what came before: the end of the same round
 * of the load, or for ever what the cabinet stood at. Read from the record's buckets.
 */
import { type Case, windowLength_s } from './case.ts';
import { isRoundWindow } from './round-window.ts';
import { standingOf } from './stood-before.ts';

export interface KeptUp {
  readonly value: number;
  /** When it began, no sooner than the window [s]. */
  readonly time_s: number;
}

/** Buckets one behind the other: how long each is, its mean and its smallest value. */
interface Pieces {
  readonly length_s: readonly number[];
  readonly mean: readonly number[];
  readonly min: readonly number[];
}

/** Largest mean of a stretch of `over_s` that the window's beginning cuts, or the level that it stays above; null: not known. */
export function acrossCut(c: Case, channel: string, over_s: number, by: 'mean' | 'held'): KeptUp | null {
  const after = piecesOf(c, channel, over_s, 'first');
  if (after === null) return null;
  const standing = standingOf(c, channel);
  const { from_s, to_s } = c.result.window;
  if (standing !== null) {
    const before = { length_s: [over_s], mean: [standing], min: [standing] };
    return { value: by === 'mean' ? highestMean(before, after, over_s) : standing, time_s: from_s };
  }
  if (!isRoundWindow(c) || windowLength_s(c) < over_s) return null;
  const before = piecesOf(c, channel, over_s, 'last')!;
  const value = (by === 'mean' ? highestMean : highestHeld)(before, after, over_s);
  return { value, time_s: to_s - before.length_s.reduce((total, one) => total + one, 0) };
}

/** The buckets of up to `most_s` at one end of the window, in time order. */
function piecesOf(c: Case, channel: string, most_s: number, end: 'first' | 'last'): Pieces | null {
  const { channels, bucketCount, edges_s, mean, min } = c.result.recording;
  const index = channels.findIndex(({ id }) => id === channel);
  if (index < 0) return null;
  const { from_s, to_s } = c.result.window;
  const [lo, hi] = end === 'first' ? [from_s, from_s + most_s] : [to_s - most_s, to_s];
  const within = Array.from({ length: bucketCount }, (_, b) => b).filter(
    (b) =>
      edges_s[b]! >= Math.max(from_s, lo) - 1e-9 &&
      edges_s[b + 1]! <= to_s + 1e-9 &&
      (end === 'last' || edges_s[b]! < hi),
  );
  return {
    length_s: within.map((b) => edges_s[b + 1]! - edges_s[b]!),
    mean: within.map((b) => mean[index]![b]!),
    min: within.map((b) => min[index]![b]!),
  };
}

/** Of all stretches across the cut: their mean is straight between those that begin or end where a piece does. */
function highestMean(before: Pieces, after: Pieces, over_s: number): number {
  const back = new Running([...before.length_s].reverse(), [...before.mean].reverse());
  const head = new Running(after.length_s, after.mean);
  const heads_s = [...head.ends_s, ...back.ends_s.map((tail_s) => over_s - tail_s)];
  let most = Number.NEGATIVE_INFINITY;
  for (const head_s of heads_s) {
    const tail_s = over_s - head_s;
    const isAcross = head_s >= 0 && tail_s >= 0 && head_s <= head.length_s && tail_s <= back.length_s;
    if (isAcross) most = Math.max(most, (head.until(head_s) + back.until(tail_s)) / over_s);
  }
  return most;
}

/** Of stretches of whole pieces, shorter than `over_s` by less than two of them: never kinder. */
function highestHeld(before: Pieces, after: Pieces, over_s: number): number {
  let most = Number.NEGATIVE_INFINITY;
  let [tail_s, tailMin] = [0, Number.POSITIVE_INFINITY];
  for (let j = before.min.length - 1; j >= 0 && tail_s < over_s; j--) {
    tail_s += before.length_s[j]!;
    tailMin = Math.min(tailMin, before.min[j]!);
    let [whole_s, least] = [tail_s, tailMin];
    for (let k = 0; k < after.min.length && least > most; k++) {
      whole_s += after.length_s[k]!;
      if (whole_s > over_s) break;
      least = Math.min(least, after.min[k]!);
    }
    most = Math.max(most, least);
  }
  return most;
}

/** What is constant piece by piece, integrated from the first piece's beginning on. */
class Running {
  /** Where each piece ends, and the integral up to there; both begin at 0. */
  readonly ends_s: number[] = [0];
  private readonly sums: number[] = [0];
  private readonly means: readonly number[];

  constructor(lengths_s: readonly number[], means: readonly number[]) {
    this.means = means;
    for (const [k, length_s] of lengths_s.entries()) {
      this.ends_s.push(this.ends_s[k]! + length_s);
      this.sums.push(this.sums[k]! + length_s * means[k]!);
    }
  }

  get length_s(): number {
    return this.ends_s.at(-1)!;
  }

  until(at_s: number): number {
    let [lo, hi] = [0, this.means.length];
    while (lo < hi) {
      const middle = (lo + hi + 1) >> 1;
      if (this.ends_s[middle]! <= at_s) lo = middle;
      else hi = middle - 1;
    }
    return this.sums[lo]! + (at_s - this.ends_s[lo]!) * (this.means[lo] ?? 0);
  }
}
