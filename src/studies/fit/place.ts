import type { MeasuredReport } from '../../analysis/judge/report.ts';
import { BadInput } from '../../base/problem.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { usualClock } from '../../measured/precision.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';
import { type FirstPlace, intervalOf } from './points.ts';

/** What a trial of a fit asks: the measurement whose channels are wanted. */
export interface MeasuredAsked {
  readonly measured: AskedMeasurement;
}

/** Where a measurement lies in the run with the present values, and how that is known. */
export type FoundPlace = Pick<
  MeasuredReport,
  'at_s' | 'aligned' | 'at_interval_s' | 'clock_rate_ratio' | 'clock_rate_error_ratio' | 'warnings'
>;

/** A place that had to be assumed is none to begin from. */
export function refuseAssumed(file: string, { aligned, warnings }: FoundPlace): void {
  if (aligned !== 'assumed') return;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: `a measurement that cannot be placed with the present values: ${warnings[0]}`,
      expected: 'a place in time that the fit can begin from',
      mend: 'give --measured-at TIME, the time of the run at the first stamp',
    },
  ]);
}

/** A place that was found is looked for this far off at least, in samples, and in half widths of its interval. */
const mostMoved = { samples: 5, halfWidths: 3 } as const;

/** Where a fit begins, and how far from there it looks: other values have another place. */
export function firstPlace(
  found: Omit<FoundPlace, 'warnings'>,
  { columns }: Pick<Measurement, 'columns'>,
): FirstPlace {
  const { at_s, aligned, at_interval_s, clock_rate_ratio, clock_rate_error_ratio } = found;
  const clock = {
    rate_ratio: clock_rate_ratio ?? 0,
    rate_error_ratio: clock_rate_error_ratio ?? usualClock,
  };
  if (aligned === 'given') return { at_s, within_s: 0, ...clock };
  const half_s = at_interval_s === null ? 0 : (at_interval_s[1] - at_interval_s[0]) / 2;
  const within_s = Math.max(mostMoved.samples * intervalOf(columns), mostMoved.halfWidths * half_s);
  return { at_s, within_s, ...clock };
}
