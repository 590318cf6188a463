/** Every cell of a matrix: fault × corner × redundancy, each a run. */
import { settleTime_s } from '../../analysis/record/applies.ts';
import { BadInput, type Problem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { problemAt } from '../../scenario/text/document.ts';
import type { Origin } from '../../scenario/text/origin.ts';
import { filesOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import type { Planned } from '../study.ts';
import type { ReadChanged, Trial } from '../trials/trial.ts';
import { plannedFrom } from '../written/planned.ts';
import type { StudyFile, Variant } from '../written/study-file.ts';
import { everyFault } from './faults.ts';

export interface MatrixPlan extends Planned {
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
  readonly trials: readonly Trial<'run'>[];
  /** Faults after which no stretch of steady operation is long enough for the ripple of AC power. */
  readonly ripple_not_after: readonly string[];
  readonly inputs: StudyHead['inputs'];
  readonly limit_titles: LimitTitles;
}

const asItIs: readonly Variant[] = [{ name: 'as it is', changes: [] }];

/** Lists every cell and reads each of its scenarios; throws BadInput with everything wrong. */
export function planMatrix(study: StudyFile, read: ReadChanged): MatrixPlan {
  const base = read({ scenario: study.scenario, changes: study.changes });
  const none: Variant = { name: 'no fault', changes: [] };
  const made = study.everyFault === null ? [] : everyFault(base, study.everyFault);
  const listed = [...made, ...study.faults];
  const faults = listed.some(({ changes }) => changes.length === 0) ? listed : [none, ...listed];
  const corners = study.corners.length === 0 ? asItIs : study.corners;
  const redundancy = study.redundancy.length === 0 ? asItIs : study.redundancy;
  const places: MatrixPlan['places'][number][] = [];
  const trials: Trial<'run'>[] = [];
  for (const fault of faults) {
    for (const spare of redundancy) {
      for (const corner of corners) {
        places.push({ fault: fault.name, redundancy: spare.name, corner: corner.name });
        trials.push({
          kind: 'run',
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
  return {
    ...plannedFrom(study, read),
    study,
    faults,
    corners,
    redundancy,
    places,
    trials,
    ripple_not_after: [...short],
    inputs,
    limit_titles: limitTitles([base.scenario]),
  };
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
