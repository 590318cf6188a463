/**
 * The sustained swing of a row of half swings: the largest mean swing over a stretch of it
 *
 *   of at least eight half swings in a row, and
 *   of at least 5 ms or 24 half swings at the end of a row that an edge or the end of the run has cut, of at least
 *   50 ms elsewhere,
 *   whose second half swings no less than nine tenths of what its first half does.
 *
 * What rings down after a kick fails the last, or it has become small by the time it passes: at 5 kHz a damping
 * ratio of 0.0007 is still told as ringing down where nothing cuts the row. A burst that begins and dies between
 * two edges within 50 ms is not sustained.
 */
import { logarithm } from '../../base/logarithm.ts';
import type { HalfSwings } from './half-swings.ts';

const leastCount = 8;
const enoughCount = 24;
const shortest_s = 5e-3;
const shortestInside_s = 50e-3;
const keeps = 0.9;

/** Where a row holds a sustained swing, its mean size, and how it turns and grows there. */
export interface HeldSwing {
  /** Mean swing, peak to peak, in the channel's unit. */
  readonly swing: number;
  readonly frequency_Hz: number;
  /** Growth rate [1/s]; negative where it dies. */
  readonly rate_per_s: number;
  /** Where the row swings at least half as much [tick]. */
  readonly from: number;
  readonly to: number;
}

export function sustainedIn(row: HalfSwings, isCut: boolean, tick_s: number): HeldSwing | null {
  if (row.count < leastCount) return null;
  const n = row.blocks;
  let best: { swing: number; first: number; last: number } | null = null;
  for (let first = 0; first < n; first++) {
    let count = row.countIn(first);
    let sum = row.sumIn(first);
    for (let last = first + 1; last < n; last++) {
      count += row.countIn(last);
      sum += row.sumIn(last);
      const swing = sum / count;
      if (count < leastCount || (best !== null && swing <= best.swing)) continue;
      const length_s = (row.endOf(last) - row.startOf(first)) * tick_s;
      const isEnd = isCut && last === n - 1;
      if (length_s < (isEnd ? shortest_s : shortestInside_s) && !(isEnd && count >= enoughCount)) continue;
      if (ratioOfHalves(row, first, last) >= keeps) best = { swing, first, last };
    }
  }
  if (best === null) return null;
  const { swing, first, last } = best;
  const length_s = (row.endOf(last) - row.startOf(first)) * tick_s;
  let count = 0;
  for (let b = first; b <= last; b++) count += row.countIn(b);
  let [from, to] = [first, last];
  while (from > 0 && 2 * meanOf(row, from - 1, from - 1) >= swing) from--;
  while (to < n - 1 && 2 * meanOf(row, to + 1, to + 1) >= swing) to++;
  return {
    swing,
    frequency_Hz: count / 2 / length_s,
    rate_per_s: logarithm(ratioOfHalves(row, first, last)) / (length_s / 2),
    from: row.startOf(from),
    to: row.endOf(to),
  };
}

/** Mean swing of the later half of two or more blocks over that of the earlier. */
function ratioOfHalves(row: HalfSwings, first: number, last: number): number {
  const middle = (first + last + 1) >> 1;
  return meanOf(row, middle, last) / meanOf(row, first, middle - 1);
}

function meanOf(row: HalfSwings, first: number, last: number): number {
  let count = 0;
  let sum = 0;
  for (let b = first; b <= last; b++) {
    count += row.countIn(b);
    sum += row.sumIn(b);
  }
  return sum / count;
}
