/** Faults × corners × redundancy: one verdict each, with the limit that binds and the command that repeats it. */
import { BadInput } from '../../problem.ts';
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
  readonly replay: string;
}

export interface MatrixReport extends StudyHead {
  readonly faults: readonly string[];
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
  const problems = trials.flatMap((trial) => {
    try {
      read(trial);
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
  return { study, faults, corners, redundancy, places, trials, inputs };
}

export function matrixReport(plan: MatrixPlan, outcomes: readonly Outcome[]): MatrixReport {
  const { study, inputs, faults, corners, redundancy, places, trials } = plan;
  const names = (variants: readonly Variant[]): string[] => variants.map(({ name }) => name);
  return {
    ...headOf(study, inputs),
    faults: names(faults),
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
        replay: replayOf(trials[k]!),
      };
    }),
    passed: outcomes.filter(passes).length,
    runs: outcomes.length,
  };
}
