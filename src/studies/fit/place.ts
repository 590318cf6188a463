import { BadInput } from '../../base/problem.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';

/** What a trial of a fit asks: the measurement whose channels are wanted. */
export interface MeasuredAsked {
  readonly measured: AskedMeasurement;
}

/** Where a measurement lies in the run with the present values, and how that is known. */
export interface FoundPlace {
  readonly at_s: number;
  readonly aligned: 'given' | 'found' | 'assumed';
  readonly warnings: readonly string[];
}

/** A place that had to be assumed is none to begin from. */
export function refuseAssumed(file: string, { aligned, warnings }: FoundPlace): void {
  if (aligned !== 'assumed') return;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: `a measurement that cannot be placed with the present values: ${warnings.join(' ')}`,
      expected: 'a place in time that the fit can begin from',
      mend: 'give --measured-at TIME, the time of the run at the first stamp',
    },
  ]);
}
