/** A bench for identification as a fit sees it: what an instrument reads there of a cabinet that differs by `truth`. */

import { identificationBenches, type Probe } from '../../../scripts/identification/benches.ts';
import { measuredOn } from '../../../scripts/identification/measured.ts';
import { recordingFaults } from '../../../scripts/identification/recording-faults.ts';
import { benchWith, simulatedWith, stepsWith } from '../../../scripts/identification/simulated.ts';
import type { MeasuredReport } from '../../../src/analysis/judge/report.ts';
import { Random } from '../../../src/loads/random.ts';
import { layOver } from '../../../src/measured/lay-over.ts';
import type { MeasuredColumn, Measurement } from '../../../src/measured/measurement.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { adjustedOf } from '../../../src/studies/fit/adjusted.ts';
import { fitParameters } from '../../../src/studies/fit/fit.ts';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';
import { firstPlace } from '../../../src/studies/fit/place.ts';
import { suspectsIn } from '../../../src/studies/fit/usual-suspects.ts';

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
  /** The file begins so much later, on a place that is known to so much. */
  readonly cut?: { readonly by_s: number; readonly to_s: number };
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
  cut = { by_s: 0, to_s: 5 * interval_s },
  altered = (column) => column,
}: Fitting): Promise<FitReport> {
  const bench = { ...identificationBenches[0]!, truth, probes, interval_s };
  const read = benchWith(bench, []);
  const adjusted = adjustedOf(adjust, read);
  const measurement = measuredOn(bench, stepsWith(bench, truth), new Random(seed));
  return fitParameters({
    adjusted,
    suspects: suspected ? suspectsIn(read, adjusted) : [],
    measurement: {
      ...measurement,
      columns: measurement.columns.map((column) => altered(later(column, cut.by_s))),
    },
    run: async (changes) => simulatedWith(bench, changes),
    place: {
      at_s: bench.at_s + cut.by_s,
      within_s: placeGiven ? 0 : cut.to_s,
      rate_ratio: 0,
      rate_error_ratio: 3e-4,
    },
  });
}

/** A fault of a recording of `bench-step`, placed and fitted as a user would. */
export async function faultOnStep(name: string): Promise<{
  readonly whole: Measurement;
  readonly faulty: Measurement;
  readonly placed: MeasuredReport;
  readonly report: FitReport;
}> {
  const [bench] = identificationBenches;
  const { of } = recordingFaults.find((fault) => fault.name === name)!;
  const whole = measuredOn(bench!, stepsWith(bench!, bench!.truth), new Random(1));
  const faulty = { ...whole, columns: of(whole.columns) };
  const placed = layOver(faulty, simulatedWith(bench!, []), { at_s: null });
  const paths = bench!.truth.map(({ path }) => path);
  const report = await fitParameters({
    adjusted: adjustedOf(paths, benchWith(bench!, [])),
    measurement: faulty,
    place: firstPlace(placed, faulty),
    run: async (changes) => simulatedWith(bench!, changes),
  });
  return { whole, faulty, placed, report };
}

function later(column: MeasuredColumn, by_s: number): MeasuredColumn {
  const from = column.time_s.findIndex((t) => t >= by_s - 1e-9);
  const time_s = column.time_s.slice(from).map((t, _, all) => t - all[0]!);
  return { ...column, time_s, values: column.values.slice(from) };
}

export function holds(report: FitReport, path: string, value: number): boolean {
  const { interval } = report.result[path]!;
  return interval !== null && interval[0] <= value && value <= interval[1];
}
