/** Runs of one and the same value, and how long they become by chance. */
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
  /** Share of the samples outside these that repeat the one before; 1 where too few are outside to say. */
  readonly repeat_ratio: number;
}

const kept = 10;

export const lengthOf = ({ from, to }: EqualRun): number => to - from + 1;

export function equalRuns(values: Float64Array): EqualRuns {
  const longest: EqualRun[] = [];
  let repeats = 0;
  let from = 0;
  for (let i = 1; i <= values.length; i++) {
    if (i < values.length && values[i] === values[from]) {
      repeats++;
      continue;
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
  const outside = values.length - within;
  const others = repeats - (within - longest.length);
  return { longest, repeat_ratio: outside < fewestSamples ? 1 : others / outside };
}

/** So rare must a run be that it is none by chance: once in so many recordings. */
const rarity = 1e6;
/** Where more samples than this repeat the one before, values are steady by nature and long runs say nothing. */
const steady_ratio = 0.98;
const fewest = 10;

/**
 * Length that no run reaches by chance where each sample repeats the one before with probability p: among n samples
 * n·p^(length − 1) runs are so long, which is one in a million here. Infinite where values are steady by nature.
 */
export function beyondChance(repeat_ratio: number, samples: number): number {
  if (repeat_ratio > steady_ratio) return Number.POSITIVE_INFINITY;
  const p = Math.max(repeat_ratio, 0.01);
  return Math.max(fewest, 1 + logarithm(rarity * samples) / -logarithm(p));
}
