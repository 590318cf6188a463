/**
 * How many of 95 % intervals hold the truth, on a model in closed form: fast beside the samples, so that a file alone hears its
 * bends as noise; read by instruments off anywhere within a wide class; and, as a simulation does, with stairs of a
 * hundredth of the noise wherever its values change.
 */
import { expect, test } from 'vitest';
import { readQuantity } from '../../../src/base/quantity.ts';
import { Random } from '../../../src/loads/random.ts';
import type { Curves } from '../../../src/measured/curve/curve.ts';
import type { MeasuredColumn } from '../../../src/measured/measurement.ts';
import { readSensor } from '../../../src/measured/sensor/read-sensor.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { fitParameters } from '../../../src/studies/fit/fit.ts';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';
import { holds } from './bench.ts';

const channel = 'A.S1.voltage_V';
const noise_V = 0.004;
/** Of the noise, one standard deviation. */
const stairs = 0.02;
const truth = { resistance: 0.7e-3, inductance: 0.2e-6 };
const adjusted = [
  { path: 'resistance', dimension: 'resistance', start: 0.72e-3, low: 0.6e-3, high: 0.8e-3, grid: null },
  { path: 'inductance', dimension: 'inductance', start: 0.25e-6, low: 0, high: 0.5e-6, grid: null },
] as const;
const times_s = Float64Array.from({ length: 3001 }, (_, k) => k * 1e-4);

/** A current of 160 Hz over resistance and inductance: V = 50 V − R i − L di/dt. */
function voltageAt(t: number, { resistance, inductance }: typeof truth): number {
  const phase = 2 * Math.PI * 160 * t;
  const [i_A, rise_A_s] = [100 + 60 * Math.sin(phase), 60 * 2 * Math.PI * 160 * Math.cos(phase)];
  return 50 - resistance * i_A - inductance * rise_A_s;
}

function curvesOf(changes: readonly Change[]): Curves {
  const [resistance, inductance] = adjusted.map(({ path, dimension }) => {
    const read = readQuantity(changes.find((change) => change.path === path)!.value, dimension);
    if (!read.ok) throw new RangeError(read.found);
    return read.value;
  });
  const random = new Random(Math.round(resistance! * 3e7 + inductance! * 3e11));
  const values = times_s.map(
    (t) =>
      voltageAt(t, { resistance: resistance!, inductance: inductance! }) +
      stairs * noise_V * random.gaussian(),
  );
  return { of: new Map([[channel, { channel, time_s: times_s, values }]]), window: { from_s: 0, to_s: 0.3 } };
}

function measured(seed: number): MeasuredColumn {
  const sensor = readSensor('divider, gain 2 %, bias 0.1 %', 'V');
  if ('found' in sensor) throw new RangeError(sensor.found);
  const random = new Random(seed);
  const gain = 1 + 0.02 * (2 * random.uniform() - 1);
  const time_s = Float64Array.from({ length: 290 }, (_, k) => 1e-3 * k);
  const values = time_s.map((t) => {
    const v = voltageAt(t + 0.0055, truth);
    return 49.93 + gain * (v - 49.93) + noise_V * random.gaussian();
  });
  return { column: channel, channel, time_s, values, sensor };
}

function fitted(seed: number): Promise<FitReport> {
  return fitParameters({
    adjusted,
    measurement: { file: '', sha256: '', columns: [measured(seed)], remarks: [], warnings: [] },
    run: async (changes) => curvesOf(changes),
    place: { at_s: 0.0055, within_s: 0, rate_ratio: 0, rate_error_ratio: 0 },
  });
}

test('nine in ten intervals and more hold the truth, beside bends, stairs and a class', async () => {
  const held = { resistance: 0, inductance: 0 };
  for (let seed = 1; seed <= 100; seed++) {
    const report = await fitted(seed);
    expect(report.misfit).toEqual([]);
    if (holds(report, 'resistance', truth.resistance)) held.resistance++;
    if (holds(report, 'inductance', truth.inductance)) held.inductance++;
  }
  expect(held.resistance).toBeGreaterThanOrEqual(91);
  expect(held.inductance).toBeGreaterThanOrEqual(91);
});
