/** What a thread of the pool does: one trial per call. Bad input comes back as data, as errors lose their type on the way. */
import { BadInput, type Problem } from '../../base/problem.ts';
import type { Trial, TrialOutcome } from '../trial.ts';
import { Shelf } from './run-trial.ts';

export type Worked =
  | { readonly kind: 'outcome'; readonly outcome: TrialOutcome }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

const shelf = new Shelf();

export function work(trial: Trial): Worked {
  try {
    return { kind: 'outcome', outcome: shelf.run(trial) };
  } catch (error) {
    if (error instanceof BadInput) return { kind: 'problems', problems: error.problems };
    throw error;
  }
}
