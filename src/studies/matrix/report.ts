/** What a matrix found: of each cell the verdict, the limit that decides and the command that repeats it. */
import { headOf, type StudyHead } from '../head.ts';
import type { LimitTitles } from '../limit-titles.ts';
import { replayOf } from '../trials/replay.ts';
import { bindingOf, decidedBy, passes, type RunOutcome, type TrialFinding } from '../trials/run-outcome.ts';
import { conditionsOf, letterOf, type States, statesOf } from '../trials/states.ts';
import type { Trial } from '../trials/trial.ts';
import type { Variant } from '../written/study-file.ts';
import { type MatrixCell, worstOf } from './cell.ts';
import type { Coverage } from './coverage.ts';
import type { MatrixPlan } from './plan.ts';
import { findingsShown } from './shows.ts';

export interface MatrixReport extends StudyHead {
  readonly limit_titles: LimitTitles;
  readonly faults: readonly string[];
  /** What each fault is, in the order of `faults`; '' where its name says it. */
  readonly fault_words: readonly string[];
  readonly ripple_not_after: readonly string[];
  readonly corners: readonly string[];
  readonly redundancy: readonly string[];
  readonly cells: readonly MatrixCell[];
  /** Limits whose values are shown of every cell; missing where none are. */
  readonly shows?: readonly string[];
  readonly states: States;
  /** With conditions or without. */
  readonly passed: number;
  /** Cells. */
  readonly runs: number;
  /** Runs of all cells: more than those where each is tried at several moments. */
  readonly simulations: number;
  /** What was tried and what was not. */
  readonly coverage: Coverage;
}

/** A run of a cell with its fault at one moment. */
export interface Tried {
  readonly place: number;
  readonly later_s: number;
  readonly trial: Trial<'run'>;
  readonly outcome: RunOutcome;
}

/** The moments that every cell is tried at, as they came out. */
export function triedOf({ tries, trials }: MatrixPlan, outcomes: readonly RunOutcome[]): readonly Tried[] {
  return outcomes.map((outcome, k) => ({ ...tries[k]!, trial: trials[k]!, outcome }));
}

/** A cell as it came out at one moment. */
export function cellOf({ places, shows }: MatrixPlan, { place, later_s, trial, outcome }: Tried): MatrixCell {
  return {
    ...places[place]!,
    letter: letterOf(outcome),
    verdict: outcome.verdict,
    status: outcome.status,
    ...decided(outcome, bindingOf(outcome)),
    summary: outcome.summary,
    conditions: conditionsOf(outcome),
    warnings: outcome.warnings,
    collapse: outcome.collapse,
    later_s,
    unfelt: outcome.unfelt,
    ...(shows.length === 0 ? {} : { shown: findingsShown(outcome, shows) }),
    trial,
    replay: replayOf(trial),
  };
}

/** `searched`: moments beyond those that every cell is tried at. */
export function matrixReport(
  plan: MatrixPlan,
  outcomes: readonly RunOutcome[],
  searched: readonly Tried[] = [],
): MatrixReport {
  const { study, inputs, faults, corners, redundancy, places } = plan;
  const runs = [...triedOf(plan, outcomes), ...searched];
  const tried = runs.map((one) => cellOf(plan, one));
  const cells = places.map((_, place) => worstOf(tried.filter((__, k) => runs[k]!.place === place)));
  const worst = cells.map((cell) => runs[tried.indexOf(cell)]!.outcome);
  const names = (variants: readonly Variant[]): string[] => variants.map(({ name }) => name);
  return {
    ...headOf(study, inputs, [plan.nominal_V]),
    limit_titles: plan.limit_titles,
    faults: names(faults),
    fault_words: faults.map(({ about }) => about ?? ''),
    ripple_not_after: plan.ripple_not_after,
    corners: names(corners),
    redundancy: names(redundancy),
    cells,
    ...(plan.shows.length === 0 ? {} : { shows: plan.shows }),
    states: statesOf(worst),
    passed: worst.filter(passes).length,
    runs: cells.length,
    simulations: runs.length,
    coverage: plan.coverage,
  };
}

function decided(
  outcome: RunOutcome,
  binding: TrialFinding | null,
): Pick<MatrixCell, 'binding' | 'value' | 'limit' | 'unit' | 'headroom_ratio' | 'node'> {
  if (binding === null) {
    const nothing = { value: null, limit: null, unit: '', headroom_ratio: null, node: null };
    return { binding: decidedBy(outcome), ...nothing };
  }
  const { id, value, limit, unit, headroom_ratio, node } = binding;
  return { binding: id, value, limit, unit, headroom_ratio, node };
}
