/** The whole basis of a run's verdict, in the order in which it is read. */
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { BasisEntry } from '../basis.ts';
import type { Finding } from '../judge/report.ts';
import type { Case } from '../record/case.ts';
import { changedBasis } from './changed.ts';
import { dayBasis } from './day.ts';
import { drawBasis } from './draw.ts';
import { gridBasis } from './grid.ts';
import { limitsBasis } from './limits.ts';
import { lineBasis } from './line.ts';
import { livesBasis } from './lives.ts';
import { outageBasis } from './outage.ts';
import { ratedBasis } from './rated.ts';
import { repeatedBasis } from './repeated.ts';
import { replayBasis } from './replay.ts';
import { notGuarded } from './rule.ts';
import { servedBasis } from './served.ts';
import { signOffBasis } from './sign-off.ts';
import { warnedBasis } from './warned.ts';
import { windowBasis } from './window.ts';

export function basisOf(c: Case, recorded: RecordedLoad | null, findings: readonly Finding[]): BasisEntry[] {
  const { scenario, demand, result, cycle, outage } = c;
  return [
    notGuarded,
    dayBasis(scenario),
    ...signOffBasis(scenario, findings),
    ...limitsBasis(scenario),
    ...outageBasis(scenario, outage),
    ...servedBasis(c),
    ...ratedBasis(scenario),
    ...gridBasis(scenario),
    ...lineBasis(c),
    ...drawBasis(scenario),
    ...replayBasis(scenario, recorded),
    ...changedBasis(scenario),
    ...windowBasis(scenario, demand, result),
    ...repeatedBasis(cycle),
    ...livesBasis(cycle, findings),
    ...warnedBasis(scenario),
  ];
}
