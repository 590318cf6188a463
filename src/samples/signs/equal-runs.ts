/** Runs of one and the same value, what lies between them, and how long they become by chance. */
import { logarithm } from '../../base/logarithm.ts';
import { fewestSamples } from './sign.ts';

/** Samples `from` to `to`, both included. */
export interface EqualRun {
  readonly from: number;
  readonly to: number;
}

export interface EqualRuns {
  /** The longest, longest first. */
  readonly longest: readonly EqualRun[];
  readonly unrest: Unrest;
}

/** How samples move, leaving the longest runs out. */
export interface Unrest {
  readonly samples: number;
  /** Share of them that repeat the one before. */
  readonly repeat_ratio: number;
  /** Changes of value, and the share of them that turn back the one before: two thirds in white noise, none on a ramp. */
  readonly changes: number;
  readonly turn_ratio: number;
}

const kept = 10;

export const lengthOf = ({ from, to }: EqualRun): number => to - from + 1;

export function equalRuns(values: Float64Array): EqualRuns {
  const longest: EqualRun[] = [];
  const turns = new TurnCount();
  let from = 0;
  for (let i = 1; i <= values.length; i++) {
    if (i < values.length) {
      turns.meet(values[i]! - values[i - 1]!);
      if (values[i] === values[from]) continue;
    }
    const shortest = longest.length < kept ? 0 : lengthOf(longest[kept - 1]!);
    if (i - from > Math.max(1, shortest)) {
      longest.push({ from, to: i - 1 });
      longest.sort((a, b) => lengthOf(b) - lengthOf(a));
      longest.length = Math.min(longest.length, kept);
    }
    from = i;
  }
  const within = longest.reduce((sum, run) => sum + lengthOf(run), 0);
  return { longest, unrest: turns.unrest(values.length - within, within - longest.length) };
}

/** Counts how successive differences of samples turn. */
export class TurnCount {
  private repeats = 0;
  private changes = 0;
  private turns = 0;
  private last = 0;

  meet(difference: number): void {
    if (difference === 0) {
      this.repeats++;
      return;
    }
    this.changes++;
    if (difference * this.last < 0) this.turns++;
    this.last = difference;
  }

  /** The next sample does not follow the last one. */
  break(): void {
    this.last = 0;
  }

  /** `repeatsWithin`: those that lie in samples which are left out. */
  unrest(samples: number, repeatsWithin = 0): Unrest {
    const { changes, turns, repeats } = this;
    return {
      samples,
      changes,
      repeat_ratio: samples > 0 ? (repeats - repeatsWithin) / samples : 1,
      turn_ratio: changes > 0 ? turns / changes : 0,
    };
  }
}

/** So rare must a run be that it is none by chance: once in so many recordings. */
const rarity = 1e6;
/** Where more samples than this repeat the one before, or fewer changes turn back, values are steady, or smooth, by nature. */
const steady_ratio = 0.85;
export const smooth_ratio = 0.15;
const fewest = 10;

/** Whether samples show the noise of a sensor, or of a load that never rests: without it long runs say nothing. */
export function isRestless({ samples, changes, repeat_ratio, turn_ratio }: Unrest): boolean {
  return (
    Math.min(samples, changes) >= fewestSamples && repeat_ratio <= steady_ratio && turn_ratio >= smooth_ratio
  );
}

/**
 * Length that no run reaches by chance where each sample repeats the one before with probability p: among n samples
 * n·p^(length − 1) runs are so long, which is one in a million here. Infinite where samples are not restless.
 */
export function beyondChance(unrest: Unrest, samples: number): number {
  return isRestless(unrest) ? longerThanChance(unrest.repeat_ratio, samples) : Number.POSITIVE_INFINITY;
}

/** The same of anything that each sample does by chance in this share of all. */
export function longerThanChance(share: number, samples: number): number {
  const p = Math.max(share, 0.01);
  return Math.max(fewest, 1 + logarithm(rarity * samples) / -logarithm(p));
}
