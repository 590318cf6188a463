/** What a rating comes to: whether it is decided, how it ends, what stands beside common practice. */
import { type End, endOf } from '../end.ts';
import type { RatingReport } from './report.ts';

/** What common practice grants a pulsed load of the steady rating; it has no source. */
export const commonPulsedRatio = 5 / 6;

/** Nothing passes and nothing failed: no scale came to a verdict. */
export function isUndecided({ scale_ratio, states: { failed, collapsed } }: RatingReport): boolean {
  return scale_ratio === null && failed + collapsed === 0;
}

/** What a pulsed load takes beyond common practice, of the steady rating. */
export function overPractice(pulsed_over_steady_ratio: number): number {
  return pulsed_over_steady_ratio - commonPulsedRatio;
}

/** A pulsed load that takes as much of the steady rating as common practice grants, or more. */
export function meetsPractice(pulsed_over_steady_ratio: number): boolean {
  return overPractice(pulsed_over_steady_ratio) >= 0;
}

/** It passes where some scale does, in every situation. */
export function ratingEnd({ states, scale_ratio }: RatingReport): End {
  return endOf(states, scale_ratio !== null);
}

/** Every situation passes clean at its largest scale: nothing is open. */
export function isClean({ table }: RatingReport): boolean {
  return table.every(({ letter }) => letter === 'P');
}
