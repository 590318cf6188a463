/** All faults that a recording may have beside a run, each with the recording as it would be without it. */
import { intervalOf, shownOf } from '../points.ts';
import { averagedReadings } from './averaged.ts';
import { changedWithin } from './changed-within.ts';
import { driftingZero } from './drifting-zero.ts';
import { exchangedColumns } from './exchanged.ts';
import type { Beside, Hypothesis } from './fault.ts';
import { apartInTime, otherClocks } from './in-time.ts';
import type { Base, MisfitCase } from './left-without.ts';
import { noReadings } from './no-readings.ts';
import type { PartsApart } from './parts-apart.ts';
import { readingsOff } from './readings-off.ts';
import { stampsJump } from './stamps-jump.ts';

/** What is off in a channel is looked for beside the values found and the present ones: a fit bends its own for a fault. */
export function hypothesesOf(of: MisfitCase, apart: readonly PartsApart[]): Hypothesis[] {
  const besides = of.bases.map((base) => besideOf(of, base));
  const [found] = besides;
  return [
    ...besides.flatMap((beside) => [
      ...beside.columns.flatMap((_, c) => [
        ...readingsOff(beside, c),
        ...changedWithin(beside, c),
        ...driftingZero(of, beside, c),
      ]),
      ...noReadings(beside),
    ]),
    ...exchangedColumns(found!),
    ...averagedReadings(found!),
    ...apartInTime(found!, apart),
    ...stampsJump(found!),
    ...otherClocks(found!, intervalOf(of.measurement.columns), of.later_s),
  ];
}

export function besideOf(
  { measurement: { columns }, residuals, place, later_s }: MisfitCase,
  { curves }: Pick<Base, 'curves'>,
): Beside {
  const run_s = columns.map(({ time_s }) => time_s.map((t) => place.at_s + (1 + place.rate_ratio) * t));
  const simulated = columns.map((column, c) => {
    const shown = shownOf(curves, column);
    return run_s[c]!.map((t) => shown.at(t + later_s));
  });
  return { columns, noise: residuals.noise, simulated, run_s };
}
