/**
 * Ties: when two numbers that decide something count as equal. Order of summation, rounding to ticks and a clamp that
 * lands on its own limit leave differences of 1e-9 and less; what the engine itself is accurate to is 1e-4 and more.
 * A millionth lies between: below it nothing is decided, above it everything is. Counts are whole and never tie.
 * How far a value may be off is another question, which the doubt answers.
 */
import type { Limit } from '../../limits/limit.ts';

/** Relative to the limit. */
export const tie_ratio = 1e-6;

/** Whether a value lies on its limit. */
export function isTie(value: number, limit: number): boolean {
  return Math.abs(value - limit) <= tie_ratio * Math.abs(limit);
}

/** Whether a value keeps its limit; one that lies on it does. */
export function isInside(value: number, limit: number, side: Limit['side']): boolean {
  return isTie(value, limit) || (side === 'upper' ? value <= limit : value >= limit);
}
