import type { Curves } from '../../src/measured/curve/curve.ts';
import type { Measurement } from '../../src/measured/measurement.ts';
import { usualClock } from '../../src/measured/precision.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { adjustedOf } from '../../src/studies/fit/adjusted.ts';
import { fitParameters } from '../../src/studies/fit/fit.ts';
import type { FitReport } from '../../src/studies/fit/fit-report.ts';
import { suspectsIn } from '../../src/studies/fit/usual-suspects.ts';
import type { IdentificationBench } from './benches.ts';
import { benchWith, simulatedWith } from './simulated.ts';

/** Runs of one bench by their changes: fits from one start share their first runs. */
const known = new Map<string, Curves>();

export interface FittedAs {
  readonly placeGiven: boolean;
  readonly suspected: boolean;
  /** Known to be right, or taken for a usual one. */
  readonly clock?: 'exact' | 'usual';
}

/** The parameters that the bench is made for, fitted to a measurement; its place is given or fitted with them. */
export function fitted(
  bench: IdentificationBench,
  measurement: Measurement,
  { placeGiven, suspected, clock = 'exact' }: FittedAs,
): Promise<FitReport> {
  const run = async (changes: readonly Change[]): Promise<Curves> => {
    const key = `${bench.name} ${JSON.stringify(changes)}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const result = simulatedWith(bench, changes);
    if (known.size < 50) known.set(key, result);
    return result;
  };
  const read = benchWith(bench, []);
  const paths = bench.truth.map(({ path }) => path);
  const adjusted = adjustedOf(paths, read);
  return fitParameters({
    adjusted,
    suspects: suspected ? suspectsIn(read, adjusted) : [],
    measurement,
    run,
    place: {
      at_s: bench.at_s,
      within_s: placeGiven ? 0 : 5 * bench.interval_s,
      rate_ratio: 0,
      rate_error_ratio: clock === 'exact' ? 0 : usualClock,
    },
  });
}
