/** Faults × corners × redundancy: one verdict each, with the limit that binds and the command that repeats it. */
import { settleTime_s } from '../../analysis/applies.ts';
import { BadInput } from '../../problem.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { filesOf, headOf, type StudyContext, type StudyHead } from '../context.ts';
import { replayOf } from '../replay.ts';
import type { StudyFile, Variant } from '../study-file.ts';
import { bindingOf, letterOf, type Outcome, passes, type Trial, tightest } from '../trial.ts';
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

export interface Cell {
  readonly fault: string;
  readonly redundancy: string;
  readonly corner: string;
  readonly letter: ReturnType<typeof letterOf>;
  readonly verdict: Outcome['verdict'];
  readonly status: Outcome['status'];
  readonly binding: string;
  readonly headroom_ratio: number;
  readonly node: string | null;
  readonly summary: string;
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
  readonly cells: readonly Cell[];
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
      if (!isRippleJudgedAfter(read(trial).scenario)) short.add(places[k]!.fault);
      return [];
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

export function matrixReport(plan: MatrixPlan, outcomes: readonly Outcome[]): MatrixReport {
  const { study, inputs, faults, corners, redundancy, places, trials } = plan;
  const names = (variants: readonly Variant[]): string[] => variants.map(({ name }) => name);
  return {
    ...headOf(study, inputs),
    faults: names(faults),
    fault_words: faults.map(({ about }) => about ?? ''),
    ripple_not_after: plan.ripple_not_after,
    corners: names(corners),
    redundancy: names(redundancy),
    cells: outcomes.map((outcome, k): Cell => {
      const binding = bindingOf(outcome);
      return {
        ...places[k]!,
        letter: letterOf(outcome),
        verdict: outcome.verdict,
        status: outcome.status,
        binding: binding?.id ?? outcome.status,
        headroom_ratio: tightest(outcome),
        node: binding?.node ?? null,
        summary: outcome.summary,
        collapse: outcome.collapse,
        replay: replayOf(trials[k]!),
      };
    }),
    passed: outcomes.filter(passes).length,
    runs: outcomes.length,
  };
}
