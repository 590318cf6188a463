/** When a yield is known well enough. */
import { passes, type RunOutcome } from '../trials/run-outcome.ts';
import { letterOf } from '../trials/states.ts';
import type { SpreadPlan } from './plan.ts';
import type { SpreadReport } from './report.ts';
import { wilson } from './statistics.ts';

/** Samples between two looks at the interval, and how many there must be at least. */
const lookEvery = 20;
const leastSamples = 40;

/** No sample came to a verdict: nothing is known of the yield. */
export function isUndecided({ runs, states }: Pick<SpreadReport, 'runs' | 'states'>): boolean {
  return states.numerical + states.inconclusive === runs;
}

/** Whether a beginning tells enough. */
export function isEnough({ half_width }: SpreadPlan): (beginning: readonly RunOutcome[]) => boolean {
  return (beginning) => {
    if (half_width === null || beginning.length < leastSamples || beginning.length % lookEvery !== 0)
      return false;
    const told = beginning.filter((outcome) => letterOf(outcome) !== 'E').length;
    const [low, high] = wilson(beginning.filter(passes).length, told);
    return high - low <= 2 * half_width;
  };
}
