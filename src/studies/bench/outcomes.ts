/** Outcomes by the sum of their trial, each kind apart: what is found is of the kind that was asked for. */
import type { Done, OutcomeOf, TrialKind } from '../trials/trial.ts';

export class Outcomes {
  readonly #of: { readonly [K in TrialKind]: Map<string, OutcomeOf<K>> } = {
    run: new Map(),
    cell: new Map(),
    response: new Map(),
    margins: new Map(),
    injected: new Map(),
    place: new Map(),
    simulated: new Map(),
    drive: new Map(),
    share: new Map(),
  };

  get<K extends TrialKind>(kind: K, key: string): OutcomeOf<K> | undefined {
    return this.#of[kind].get(key);
  }

  set<K extends TrialKind>(key: string, done: Done<K>): void {
    this.#of[done.kind].set(key, done.outcome);
  }

  /** All of a kind, in the order in which they came. */
  allOf<K extends TrialKind>(kind: K): ReadonlyMap<string, OutcomeOf<K>> {
    return this.#of[kind];
  }

  get size(): number {
    return Object.values(this.#of).reduce((sum, { size }) => sum + size, 0);
  }
}
