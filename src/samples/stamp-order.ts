/** Stamps that do not rise: rows out of order, two recordings in one file, or a clock that was put back. */
import { digits } from '../base/digits.ts';
import type { Problem } from '../base/problem.ts';
import { risingRuns } from './sorted-order.ts';

/** Looks at the stamps of all rows as they come. */
export class StampOrder {
  /** Rows whose stamp lies before that of the row above. */
  unsorted = 0;
  /** Jumps back by about one hour: a clock that was put back in autumn. */
  hourBack = 0;
  /** Of the last row with a stamp [s]. */
  last_s = Number.NEGATIVE_INFINITY;

  meet(time_s: number): void {
    if (time_s < this.last_s) {
      this.unsorted++;
      if (Math.abs(this.last_s - time_s - 3600) < 120) this.hourBack++;
    }
    this.last_s = time_s;
  }
}

/** Rising stretches of the stamps of one channel, and the time that they share although they stand one after the other [s]. */
export interface Runs {
  readonly runs: number;
  readonly overlap_s: number;
}

interface Run {
  readonly from: number;
  readonly to: number;
}

/** Blocks of rows in the wrong order meet a few times only. */
const fewTurns = 10;

/** Whether samples of one run lie among those of the other, again and again. */
function interleave(t: Float64Array, one: Run, other: Run): boolean {
  let [i, j, turns, last] = [one.from, other.from, 0, 0];
  while (i < one.to && j < other.to && turns <= fewTurns) {
    // Of equal stamps first one, then the other.
    const isOne = t[i]! < t[j]! || (t[i]! === t[j]! && last !== 1);
    const side = isOne ? 1 : 2;
    if (side !== last) turns++;
    last = side;
    if (isOne) i++;
    else j++;
  }
  return turns > fewTurns;
}

/** Rising stretches, and how far a later one reaches back into an earlier one of more than a few samples. */
export function runsOf(t: Float64Array): Runs {
  let rising = true;
  for (let i = 1; i < t.length && rising; i++) rising = t[i]! >= t[i - 1]!;
  if (rising) return { runs: 1, overlap_s: 0 };
  const runs = risingRuns(t);
  let overlap_s = 0;
  let before = runs[0]!;
  for (const run of runs.slice(1)) {
    const long = Math.min(run.to - run.from, before.to - before.from) > 5;
    if (long) {
      const shared = Math.min(t[before.to - 1]!, t[run.to - 1]!) - Math.max(t[before.from]!, t[run.from]!);
      if (shared > overlap_s && interleave(t, before, run)) overlap_s = shared;
    }
    before = run;
  }
  return { runs: runs.length, overlap_s };
}

type Jump = Pick<Problem, 'found' | 'expected'>;

/** Dates without a zone that jump back by an hour, once or twice; null where they do not. */
export function summerTimeLeft({ hourBack }: StampOrder, isZoneless: boolean): Jump | null {
  if (!isZoneless || hourBack === 0 || hourBack > 2) return null;
  return {
    found: 'dates without a zone that jump back by one hour: a clock that left summer time',
    expected: 'stamps that rise, or carry their zone',
  };
}

/** Stamps that run again over what was recorded: sorting would mix two times of a recording. null where they do not. */
export function runsAgain(name: string, { runs, overlap_s }: Runs, median_s: number): Jump | null {
  if (runs < 2 || overlap_s <= 20 * median_s) return null;
  return {
    found: `stamps of ${name} that jump back and run again over ${digits(overlap_s, 4)} s already recorded`,
    expected:
      'one recording: two in one file, or a clock that was put back, cannot be told from rows out of order',
  };
}
