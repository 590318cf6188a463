/** The whole basis of a run's verdict, in the order in which it is read. */
import type { Result } from '../../engine/result.ts';
import type { Demand } from '../../loads/demand.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { BasisEntry } from '../basis.ts';
import type { Finding } from '../report.ts';
import { changedBasis } from './changed.ts';
import { dayBasis } from './day.ts';
import { drawBasis } from './draw.ts';
import { gridBasis } from './grid.ts';
import { limitsBasis } from './limits.ts';
import { outageBasis } from './outage.ts';
import { replayBasis } from './replay.ts';
import { notGuarded } from './rule.ts';
import { signOffBasis } from './sign-off.ts';
import { warnedBasis } from './warned.ts';
import { windowBasis } from './window.ts';

export interface Rests {
  readonly scenario: Scenario;
  readonly demand: Demand;
  readonly result: Result;
  readonly recorded: RecordedLoad | null;
  readonly findings: readonly Finding[];
}

export function basisOf({ scenario, demand, result, recorded, findings }: Rests): BasisEntry[] {
  return [
    notGuarded,
    dayBasis(scenario),
    ...signOffBasis(scenario, findings),
    ...limitsBasis(scenario),
    ...outageBasis(scenario, result),
    ...gridBasis(scenario),
    ...drawBasis(scenario),
    ...replayBasis(scenario, recorded),
    ...changedBasis(scenario),
    ...windowBasis(scenario, demand, result),
    ...warnedBasis(scenario),
  ];
}
