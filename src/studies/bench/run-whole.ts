import { BadInput } from '../../base/problem.ts';
import { ControllerFault } from '../../firmware/user/fault.ts';
import { run } from '../../run.ts';
import { unfelt } from '../trials/felt.ts';
import { noOperatingPoint, outcomeOf, type RunOutcome } from '../trials/run-outcome.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import type { Shelf } from './shelf.ts';

/** Files to judged outcome. A run that finds no state to begin in is an outcome; everything else wrong is BadInput. */
export function runWhole(shelf: Shelf, trial: ChangedScenario): RunOutcome {
  const { scenario } = shelf.read(trial);
  const recorded = shelf.recordingOf(scenario);
  return orWhyNot(
    () => {
      const { report, result } = run(scenario, recorded);
      return outcomeOf(report, unfelt(scenario, trial.changes, result));
    },
    (why) => noOperatingPoint(why),
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
