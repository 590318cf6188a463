import { sumOf } from '../identity.ts';
import type { Trial, TrialKind } from './trial.ts';

/** The sum that names a trial: its kind, its scenario, its changes and what it asks. */
export function keyOf(trial: Trial): string {
  return sumOf(trial).slice(0, 32);
}

/** A trial as kept: which one it is, and of which kind. */
export interface Place {
  readonly kind: TrialKind;
  readonly key: string;
}
