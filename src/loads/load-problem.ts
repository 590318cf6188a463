import type { Problem } from '../base/problem.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** What a load needs to know of the scenario to become a demand. */
export type LoadContext = Pick<
  Scenario,
  'sleds' | 'seed' | 'duration_s' | 'warm_up_s' | 'tick_s' | 'origins'
>;

/** A problem with one value of the load, at the place where the user wrote it. */
export function loadProblem(
  context: Pick<LoadContext, 'origins'>,
  key: string,
  text: Pick<Problem, 'found' | 'expected' | 'mend'>,
): Problem {
  const path = key === '' ? 'load' : `load.${key}`;
  const origin = context.origins.get(path) ?? context.origins.get('load');
  // A line of 0 is a word of the command line.
  const place = origin?.line === 0 ? { file: origin.file } : origin;
  return { severity: 'error', ...place, path, ...text };
}
