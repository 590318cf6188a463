import type { Change } from '../../scenario/scenario.ts';
import type { Situation } from '../written/situations.ts';

/** One rating: a situation, and what each of the scales changes in it. */
export interface RatingTask {
  readonly situation: Situation;
  readonly changes: readonly (readonly Change[])[];
}

/** A point of the curve over duty and period, as written. */
export interface CurvePoint {
  readonly duty: string;
  readonly period: string;
}
