/**
 * The ways in which a run is repeated to see what of it is numerical: two finer steps, and two nudges of the trims. One
 * nudge is not enough: in a pulse train the two move the steady share by 2 % and by 10 % of what its limit allows.
 */
import { nudged } from '../scenario/changes/nudged.ts';
import type { Scenario } from '../scenario/scenario.ts';

export interface Variation {
  /** Behind a finding: `at half the step`. */
  readonly how: string;
  readonly scenario: Scenario;
  /** All rungs of the ladder divided by this; also what it costs, over the run itself. */
  readonly refine: number;
}

const ways = { up: 'with trims nudged one way', down: 'with trims nudged the other way' } as const;

export function variationsOf(scenario: Scenario): Variation[] {
  const nudges = (['up', 'down'] as const).flatMap((first) => {
    const other = nudged(scenario, first);
    return other === null ? [] : [{ how: ways[first], scenario: other, refine: 1 }];
  });
  return [
    { how: 'at half the step', scenario, refine: 2 },
    { how: 'at a quarter of the step', scenario, refine: 4 },
    ...nudges,
  ];
}
