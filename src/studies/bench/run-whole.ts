import { BadInput } from '../../base/problem.ts';
import type { JudgedRun } from '../../bundle/format.ts';
import { ControllerFault } from '../../firmware/user/fault.ts';
import { type RunOptions, run } from '../../run.ts';
import { unfelt } from '../trials/felt.ts';
import { noOperatingPoint, outcomeOf, type RunOutcome } from '../trials/run-outcome.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import type { Shelf } from './shelf.ts';

/** A trial that was run: what a study keeps of it, and the run itself. */
export interface WholeRun {
  readonly outcome: RunOutcome;
  /** null where there is no state to begin in. */
  readonly ran: JudgedRun | null;
}

/** Files to judged outcome. A run that finds no state to begin in is an outcome; everything else wrong is BadInput. */
export function runWhole(
  shelf: Shelf,
  trial: ChangedScenario,
  options: Pick<RunOptions, 'onProgress'> = {},
): WholeRun {
  const { scenario } = shelf.read(trial);
  const recorded = shelf.recordingOf(scenario);
  return orWhyNot(
    (): WholeRun => {
      const { report, result } = run(scenario, recorded, options);
      return {
        outcome: outcomeOf(report, unfelt(scenario, trial.changes, result)),
        ran: { report, result, scenario },
      };
    },
    (why) => ({ outcome: noOperatingPoint(why), ran: null }),
  );
}

/** What was made, or the outcome of a scenario without an operating point, from the reason. */
export function orWhyNot<T>(make: () => T, without: (why: string) => T): T {
  try {
    return make();
  } catch (error) {
    if (error instanceof BadInput && !(error instanceof ControllerFault))
      return without(error.problems[0]?.found ?? 'no operating point');
    throw error;
  }
}
