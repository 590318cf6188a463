/** Faults × corners × redundancy: one verdict each, with the limit that binds and the command that repeats it. */
import { settleTime_s } from '../../analysis/record/applies.ts';
import { BadInput, type Problem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { problemAt } from '../../scenario/text/document.ts';
import type { Origin } from '../../scenario/text/origin.ts';
import { filesOf, headOf, type StudyContext, type StudyHead } from '../context.ts';
import { replayOf } from '../replay.ts';
import { conditionsOf, isWorse, type Letter, letterOf, type States, statesOf } from '../states.ts';
import type { StudyFile, Variant } from '../study-file.ts';
import { bindingOf, decidedBy, passes, type Trial, type TrialFinding, type TrialOutcome } from '../trial.ts';
import { everyFault } from './faults.ts';

export interface MatrixPlan {
  readonly study: StudyFile;
  readonly faults: readonly Variant[];
  readonly corners: readonly Variant[];
  readonly redundancy: readonly Variant[];
  /** By fault, then redundancy, then corner. */
  readonly places: readonly {
    readonly fault: string;
    readonly redundancy: string;
    readonly corner: string;
  }[];
  readonly trials: readonly Trial[];
  /** Faults after which no stretch of steady operation is long enough for the ripple of AC power. */
  readonly ripple_not_after: readonly string[];
  readonly inputs: StudyHead['inputs'];
}

export interface MatrixCell {
  readonly fault: string;
  readonly redundancy: string;
  readonly corner: string;
  readonly letter: Letter;
  readonly verdict: TrialOutcome['verdict'];
  readonly status: TrialOutcome['status'];
  /** The limit that decides, or what does where no limit does; the four below are that limit's own. */
  readonly binding: string;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  readonly headroom_ratio: number | null;
  readonly node: string | null;
  readonly summary: string;
  /** What a pass rests on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  /** Where it collapsed, from what that is read. */
  readonly collapse: string | null;
  readonly replay: string;
}

export interface MatrixReport extends StudyHead {
  readonly faults: readonly string[];
  /** What each fault is, in the order of `faults`; '' where its name says it. */
  readonly fault_words: readonly string[];
  readonly ripple_not_after: readonly string[];
  readonly corners: readonly string[];
  readonly redundancy: readonly string[];
  readonly cells: readonly MatrixCell[];
  readonly states: States;
  /** With conditions or without. */
  readonly passed: number;
  readonly runs: number;
}

const asItIs: readonly Variant[] = [{ name: 'as it is', changes: [] }];

/** Lists every cell and reads each of its scenarios; throws BadInput with everything wrong. */
export function planMatrix(study: StudyFile, read: StudyContext['read']): MatrixPlan {
  const base = read({ scenario: study.scenario, changes: study.changes });
  const none: Variant = { name: 'no fault', changes: [] };
  const made = study.everyFault === null ? [] : everyFault(base, study.everyFault);
  const listed = [...made, ...study.faults];
  const faults = listed.some(({ changes }) => changes.length === 0) ? listed : [none, ...listed];
  const corners = study.corners.length === 0 ? asItIs : study.corners;
  const redundancy = study.redundancy.length === 0 ? asItIs : study.redundancy;
  const places: MatrixPlan['places'][number][] = [];
  const trials: Trial[] = [];
  for (const fault of faults) {
    for (const spare of redundancy) {
      for (const corner of corners) {
        places.push({ fault: fault.name, redundancy: spare.name, corner: corner.name });
        trials.push({
          scenario: study.scenario,
          changes: [...study.changes, ...corner.changes, ...spare.changes, ...fault.changes],
        });
      }
    }
  }
  const short = new Set<string>();
  const problems = trials.flatMap((trial, k) => {
    try {
      const { scenario } = read(trial);
      if (!isRippleJudgedAfter(scenario)) short.add(places[k]!.fault);
      const fault = faults.find(({ name }) => name === places[k]!.fault)!;
      return tooLate(scenario, fault, fault.origin ?? study.everyFault?.origin ?? null);
    } catch (error) {
      if (error instanceof BadInput) return error.problems;
      throw error;
    }
  });
  const once = new Map(problems.map((problem) => [JSON.stringify(problem), problem]));
  const errors = [...once.values()].filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new BadInput(errors);
  const inputs = [
    ...filesOf([study.inputs, base.scenario.inputs]),
    ...study.changes.map((change) => ({ change })),
  ];
  return { study, faults, corners, redundancy, places, trials, ripple_not_after: [...short], inputs };
}

/** Events of a fault that come when the run is over: it would never be tried, and its cells would pass. */
function tooLate({ events, duration_s }: Scenario, { name, changes }: Variant, at: Origin | null): Problem[] {
  if (!changes.some(({ path }) => path === 'events.add')) return [];
  return events
    .filter(({ at_s }) => at_s >= duration_s)
    .map(({ what, unit, at_s }) =>
      problemAt(
        at,
        `faults.${name}`,
        `${what} ${unit} at ${formatQuantity(at_s, 'time')}`,
        `before the end of the run at ${formatQuantity(duration_s, 'time')}`,
        'lengthen the run or move the fault',
      ),
    );
}

/** Two periods of 0.5 Hz, where the lowest band begins that a pulse train of some seconds has. */
const enough_s = 4;

/**
 * Steady operation begins 10 s clear of every event and walk-in. Where the run ends before, ripple is judged
 * before the fault only and the cell says nothing of it.
 */
function isRippleJudgedAfter(scenario: Scenario): boolean {
  if (scenario.events.length === 0) return true;
  const last_s = Math.max(...scenario.events.map(({ at_s }) => at_s));
  const returns = scenario.events.some(({ what }) => what === 'ac-return');
  const walks = scenario.shelves.map(({ values }) => values.start_delay_s + values.walk_in_s);
  const walked_s = returns ? Math.max(...walks) : 0;
  return scenario.duration_s - (last_s + walked_s + settleTime_s) >= enough_s - 1e-9;
}

export function matrixReport(plan: MatrixPlan, outcomes: readonly TrialOutcome[]): MatrixReport {
  const { study, inputs, faults, corners, redundancy, places, trials } = plan;
  const names = (variants: readonly Variant[]): string[] => variants.map(({ name }) => name);
  return {
    ...headOf(study, inputs),
    faults: names(faults),
    fault_words: faults.map(({ about }) => about ?? ''),
    ripple_not_after: plan.ripple_not_after,
    corners: names(corners),
    redundancy: names(redundancy),
    cells: outcomes.map((outcome, k): MatrixCell => {
      return {
        ...places[k]!,
        letter: letterOf(outcome),
        verdict: outcome.verdict,
        status: outcome.status,
        ...decided(outcome, bindingOf(outcome)),
        summary: outcome.summary,
        conditions: conditionsOf(outcome),
        warnings: outcome.warnings,
        collapse: outcome.collapse,
        replay: replayOf(trials[k]!),
      };
    }),
    states: statesOf(outcomes),
    passed: outcomes.filter(passes).length,
    runs: outcomes.length,
  };
}

function decided(
  outcome: TrialOutcome,
  binding: TrialFinding | null,
): Pick<MatrixCell, 'binding' | 'value' | 'limit' | 'unit' | 'headroom_ratio' | 'node'> {
  if (binding === null) {
    const nothing = { value: null, limit: null, unit: '', headroom_ratio: null, node: null };
    return { binding: decidedBy(outcome), ...nothing };
  }
  const { id, value, limit, unit, headroom_ratio, node } = binding;
  return { binding: id, value, limit, unit, headroom_ratio, node };
}

/** The worst of some cells: by letter, then by the headroom of the limit that decides. */
export function worstOf(cells: readonly MatrixCell[]): MatrixCell {
  // What fails without a headroom, a count, lies furthest beyond; what passes without one is closest to nothing.
  const room = ({ letter, headroom_ratio }: MatrixCell): number =>
    headroom_ratio ?? (letter === 'P' || letter === 'C' ? Number.MAX_VALUE : -Number.MAX_VALUE);
  return cells.reduce((a, b) =>
    isWorse(b.letter, a.letter) || (a.letter === b.letter && room(b) < room(a)) ? b : a,
  );
}
