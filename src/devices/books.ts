/**
 * The books that a kind keeps of its units' energy, for the audit: what comes in, what loads take, what is lost, and what
 * stands in them. Products of the means over a step are exact for the trapezoid's linear elements.
 */
export interface Account {
  readonly kind: 'input' | 'load' | 'loss';
  /** In what, or by what. */
  readonly cause: string;
  readonly owners: readonly string[];
  /** Sum for each owner [J]. */
  readonly energy_J: Float64Array;
}

export interface Books {
  /** Sums since the books began, at the states x. */
  accounts(x: Float64Array): readonly Account[];
  /** Names every store and the energy in it at the states x [J]. */
  stored(x: Float64Array, put: (store: string, energy_J: number) => void): void;
}
