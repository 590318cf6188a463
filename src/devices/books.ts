/**
 * The books that a kind keeps of its units' energy, for the audit: what comes in, what loads take, what is lost, and what
 * stands in them. What flows through a unit is weighed as the step weighs it and times the mean of its voltage, as Tellegen's
 * theorem has it: exact for linear elements, but for inductors in damped steps.
 */
import type { Ends } from './ends.ts';

export interface Account {
  readonly kind: 'input' | 'load' | 'loss';
  /** In what, or by what. */
  readonly cause: string;
  readonly owners: readonly string[];
  /** Sum for each owner [J]. */
  readonly energy_J: Float64Array;
}

export abstract class Books {
  /** Begins the books at the states x. */
  start(_x: Float64Array): void {}

  /** Something has jumped: what the next step starts from is read anew. */
  resume(_x: Float64Array, _v: Float64Array): void {}

  /** A step that weighs its start by p and its end by q [s]; `shown`: every channel at its end. */
  abstract take(p: number, q: number, ends: Ends, shown: Float64Array): void;

  /** Sums since the books began, at the states x. */
  abstract accounts(x: Float64Array): readonly Account[];

  /** Names every store and the energy in it at the states x [J]. */
  stored(_x: Float64Array, _put: (store: string, energy_J: number) => void): void {}
}
