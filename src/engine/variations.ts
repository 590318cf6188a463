/** The ways in which a run is repeated to see what of it is numerical: two finer steps, and one nudge. */
import { nudged } from '../scenario/nudged.ts';
import type { Scenario } from '../scenario/scenario.ts';

export interface Variation {
  /** Behind a finding: `at half the step`. */
  readonly how: string;
  readonly scenario: Scenario;
  /** All rungs of the ladder divided by this; also what it costs, over the run itself. */
  readonly refine: number;
}

export function variationsOf(scenario: Scenario): Variation[] {
  const other = nudged(scenario);
  return [
    { how: 'at half the step', scenario, refine: 2 },
    { how: 'at a quarter of the step', scenario, refine: 4 },
    ...(other === null ? [] : [{ how: 'with trims that round the other way', scenario: other, refine: 1 }]),
  ];
}
