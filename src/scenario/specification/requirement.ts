/**
 * One requirement of a specification that another party wrote: a row of its table, and the limit that it became. What
 * names no quantity of ours stays a requirement, and is open.
 */
import type { LimitColumn } from '../sections/limit-differences.ts';

export interface Requirement {
  /** Its number in the specification. */
  readonly clause: string;
  /** In the words of the specification. */
  readonly words: string;
  readonly metric: string;
  /** Bound, stay and band as they are written, with the unit. */
  readonly bound: string;
  readonly applies: string;
  /** The document that asks for it. */
  readonly source: string;
  readonly file: string;
  readonly line: number;
  /** The limit by which it is judged; null: nothing here judges it. */
  readonly judged: RequirementLimit | null;
  /** What would show it, where nothing here does; empty where it is judged. */
  readonly shown_by: string;
}

export interface RequirementLimit {
  /** Id of the limit, which clauses on other columns of the same quantity share. */
  readonly limit: string;
  readonly columns: readonly LimitColumn[];
  /** As the limit's row holds them. */
  readonly value: number;
  readonly stay_s: number | null;
  readonly band_Hz: readonly [number, number] | null;
  readonly side: 'upper' | 'lower';
  /** The unit that the specification writes, and how much of the row's unit it is. */
  readonly unit: string;
  readonly per_unit: number;
}

export interface Specification {
  readonly file: string;
  /** The first remark of the file; empty where it has none. */
  readonly title: string;
  readonly requirements: readonly Requirement[];
}
