/** How each kind of trial is carried out, and what a thread keeps from one to the next. */
import type { Done, Trial, TrialKind } from '../trials/trial.ts';
import { runWhole } from './run-whole.ts';
import type { Shelf } from './shelf.ts';

type CarryOut<K extends TrialKind> = (trial: Trial<K>) => Done<K>;

export class Workbench {
  readonly #kinds: { readonly [K in TrialKind]: CarryOut<K> };

  constructor(shelf: Shelf) {
    this.#kinds = {
      run: (trial) => ({ kind: 'run', outcome: runWhole(shelf, trial) }),
    };
  }

  /** Throws BadInput where scenario or changes are wrong. */
  carryOut<K extends TrialKind>(trial: Trial<K>): Done<K> {
    return this.#kinds[trial.kind](trial);
  }
}
