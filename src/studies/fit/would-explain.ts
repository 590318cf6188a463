/** What would explain a misfit: faults of the recording and kept parameters, on one list. */
import { seldom } from '../../measured/whiteness.ts';
import type { Weighed } from './faults/weigh.ts';
import type { Suspect } from './suspects.ts';

export type Candidate = Suspect | Weighed;

export type Explanation = Candidate & {
  /** Share of what is left beyond noise that it would take away. */
  readonly explains_ratio: number;
};

export interface Unexplained {
  /** Mean square of what is left, over the noise. */
  readonly square: number;
  /** Samples. */
  readonly count: number;
}

/** Less than this explains nothing. */
const leastShare = 0.2;
const mostNamed = 3;
/** A fault explains most from here on. */
const mostOfIt = 0.85;
/** Beside it others count that explain nearly as much, and leave no more than so many times as much. */
const rival = { explains: 0.9, leaves: 3 } as const;

/** It is most of the misfit, and was weighed as it is: what a parameter explains is told to first order. */
export function isMostOfIt({ kind, explains_ratio }: Explanation): boolean {
  return kind !== 'parameter' && explains_ratio >= mostOfIt;
}

/** Those that explain most first: what takes away no more than chance does explains nothing. */
export function wouldExplain(all: readonly Candidate[], { square, count }: Unexplained): Explanation[] {
  const able = all.filter(({ leaves_ratio }) => (1 - leaves_ratio) * square * count > seldom ** 2);
  // Noise that was taken for too large is less than 1: what the best leaves is noise then.
  const noise = Math.min(1 / square, ...able.map(({ leaves_ratio }) => leaves_ratio));
  const named = able
    .map((one) => ({ ...one, explains_ratio: (1 - one.leaves_ratio) / (1 - noise) }))
    .filter(({ explains_ratio }) => explains_ratio >= leastShare)
    .sort((a, b) => a.leaves_ratio - b.leaves_ratio);
  const [best] = named;
  if (best === undefined) return [];
  const isRival = (one: Explanation): boolean =>
    one.explains_ratio >= rival.explains * best.explains_ratio &&
    one.leaves_ratio <= rival.leaves * best.leaves_ratio;
  return named.filter((one) => one === best || !isMostOfIt(best) || isRival(one)).slice(0, mostNamed);
}
