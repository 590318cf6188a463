/** A candidate as it is reported: the worst of its situations, and the command that repeats that run. */
import { replayOf } from '../trials/replay.ts';
import { bindingOf, decidedBy, notJudged, passes, type RunOutcome, tightest } from '../trials/run-outcome.ts';
import { conditionsOf, type Letter, worstLetter } from '../trials/states.ts';
import type { Trial } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import type { ValuesByPath } from './axes.ts';
import { type Candidate, trialsOf } from './candidates.ts';

export interface CandidateRow {
  readonly values: Readonly<Record<string, string>>;
  readonly passes: boolean;
  /** The worst of its situations. */
  readonly letter: Letter;
  readonly tightest_ratio: number;
  /** Tightest headroom in each situation, in the order of `situations`. */
  readonly headrooms_ratio: readonly number[];
  readonly binding: string;
  readonly situation: string;
  /** Limits that could not be judged in some situation: it passes with these conditions. */
  readonly not_judged: readonly string[];
  /** What its passes rest on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  /** In each situation, in the order of `situations`; `replay` repeats the tightest. */
  readonly trials: readonly Trial<'run'>[];
  readonly replay: string;
}

/** A candidate with what is varied as it is called in a report. */
export interface Shown extends Candidate {
  readonly values: ValuesByPath;
}

export function candidateRow(
  { values, changes, outcomes }: Shown,
  situations: readonly Situation[],
): CandidateRow {
  const worst = worstIndex(outcomes);
  const outcome = outcomes[worst]!;
  const trials = trialsOf(situations, changes);
  return {
    values,
    passes: outcomes.every(passes),
    letter: worstLetter(outcomes),
    tightest_ratio: tightest(outcome),
    headrooms_ratio: outcomes.map(tightest),
    binding: bindingOf(outcome)?.id ?? decidedBy(outcome).replaceAll('_', ' '),
    situation: situations[worst]!.name,
    not_judged: notJudged(outcomes),
    conditions: [...new Set(outcomes.flatMap(conditionsOf))],
    warnings: [...new Set(outcomes.flatMap(({ warnings }) => warnings))],
    trials,
    replay: replayOf(trials[worst]!),
  };
}

function worstIndex(outcomes: readonly RunOutcome[]): number {
  return outcomes.reduce(
    (worst, outcome, k) => (tightest(outcome) < tightest(outcomes[worst]!) ? k : worst),
    0,
  );
}
