/** The answer to a specification, line by line: what holds of each requirement, by how much, and where it was shown. */
import type { LimitColumn } from '../../scenario/sections/limit-differences.ts';
import type { Requirement } from '../../scenario/specification/requirement.ts';

/** `open`: nothing here shows it. What is met under conditions says them. */
export type RequirementState = 'met' | 'met_with_conditions' | 'not_met' | 'open';

/** A requirement as one run is judged by it. */
export interface AskedRequirement extends Requirement {
  /** How much of the finding's SI unit its own unit is; null where nothing judges it. */
  readonly SI_per_unit: number | null;
  /** What the run was judged by in place of its bound, where somebody changed that; null: by the bound itself. */
  readonly altered: string | null;
}

/** What one run shows of a requirement in one column. */
export interface ShownIn {
  readonly run: string;
  readonly column: LimitColumn;
  /** `not_arisen`: what it is about does not happen there. */
  readonly state: 'met' | 'not_met' | 'open' | 'not_arisen';
  /** In the unit of the requirement; the margin is positive inside the bound. */
  readonly value: number | null;
  readonly margin: number | null;
  readonly node: string | null;
  readonly time_s: number | null;
  /** What that rests on, beside the conditions of the whole run. */
  readonly conditions: readonly string[];
  readonly because: string | null;
}

export interface StatementLine {
  readonly requirement: AskedRequirement;
  readonly state: RequirementState;
  /** What decides; null where nothing was shown. */
  readonly worst: ShownIn | null;
  readonly shown: readonly ShownIn[];
  /** Columns that it applies in and that no run showed. */
  readonly not_shown: readonly LimitColumn[];
  /** Of what is met under conditions those that are of this requirement alone. */
  readonly conditions: readonly string[];
  /** Why it is open or not met, and what would show it; null where it is met. */
  readonly because: string | null;
}

export interface Statement {
  readonly file: string;
  readonly title: string;
  readonly runs: readonly string[];
  /** Batteries may carry the bus; without them nothing is asked while they do. */
  readonly carries: boolean;
  /** What everything that is met rests on. */
  readonly conditions: readonly string[];
  readonly lines: readonly StatementLine[];
}
