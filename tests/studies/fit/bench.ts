/** A bench for identification as a fit sees it: what an instrument reads there of a cabinet that differs by `truth`. */

import { identificationBenches, type Probe } from '../../../scripts/identification/benches.ts';
import { measuredOn } from '../../../scripts/identification/measured.ts';
import { benchWith, simulatedWith, stepsWith } from '../../../scripts/identification/simulated.ts';
import { Random } from '../../../src/loads/random.ts';
import type { MeasuredColumn } from '../../../src/measured/measurement.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { adjustedOf, suspectsIn } from '../../../src/studies/fit/adjusted.ts';
import { fitParameters } from '../../../src/studies/fit/fit.ts';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';

export const bus: Probe = { channel: 'A.S1.voltage_V', noise: 0.004, decimals: 3 };
export const shelf: Probe = { channel: 'S1.current_A', noise: 0.5, decimals: 1 };
/** The same with instruments that read what is there, and are declared so: noise alone is left. */
export const exact: readonly Probe[] = [
  { ...bus, sensor: 'divider, gain 0 %, bias 0 %' },
  { ...shelf, sensor: 'shunt, gain 0 %, bias 0 %' },
];

export interface Fitting {
  readonly truth: readonly Change[];
  readonly probes?: readonly Probe[];
  readonly adjust: readonly string[];
  readonly seed: number;
  readonly suspected?: boolean;
  readonly placeGiven?: boolean;
  readonly interval_s?: number;
  /** What becomes of a column before the fit sees it. */
  readonly altered?: (column: MeasuredColumn) => MeasuredColumn;
}

/** Parameters of `bench-step` fitted to a noisy reading of it. */
export function fitOnStep({
  truth,
  probes = [bus, shelf],
  adjust,
  seed,
  suspected = false,
  placeGiven = true,
  interval_s = 0.001,
  altered = (column) => column,
}: Fitting): Promise<FitReport> {
  const bench = { ...identificationBenches[0]!, truth, probes, interval_s };
  const read = benchWith(bench, []);
  const adjusted = adjustedOf(adjust, read);
  const measurement = measuredOn(bench, stepsWith(bench, truth), new Random(seed));
  return fitParameters({
    adjusted,
    suspects: suspected ? suspectsIn(read, adjusted) : [],
    measurement: { ...measurement, columns: measurement.columns.map(altered) },
    run: async (changes) => simulatedWith(bench, changes),
    place: {
      at_s: bench.at_s,
      within_s: placeGiven ? 0 : 5 * interval_s,
      rate_ratio: 0,
      rate_error_ratio: 3e-4,
    },
  });
}

export function holds(report: FitReport, path: string, value: number): boolean {
  const { interval } = report.result[path]!;
  return interval !== null && interval[0] <= value && value <= interval[1];
}
