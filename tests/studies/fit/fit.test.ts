import { describe, expect, test } from 'vitest';
import type { Result } from '../../../src/engine/result.ts';
import { Random } from '../../../src/loads/random.ts';
import type { MeasuredColumn, Measurement } from '../../../src/measured/measurement.ts';
import { noiseOf } from '../../../src/measured/noise.ts';
import { simulatedAt } from '../../../src/measured/simulated-at.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { adjustedOf } from '../../../src/studies/fit/adjusted.ts';
import { fitParameters } from '../../../src/studies/fit/fit.ts';
import { simulatedFor } from '../../../src/studies/fit/simulated.ts';
import { readShipped } from '../../scenario/shipped.ts';

const short: readonly Change[] = [
  { path: 'duration', value: '0.4 s' },
  { path: 'load.at', value: '50 ms' },
];
const readWith = (changes: readonly Change[]) =>
  readShipped('scenarios/single-step.yaml', [], { changes: [...short, ...changes] });

/** Runs with the channels of a measurement streamed. */
const runWith =
  (channels: readonly string[]) =>
  async (changes: readonly Change[]): Promise<Result> => {
    const columns = channels.map(
      (channel): MeasuredColumn => ({
        column: channel,
        channel,
        time_s: new Float64Array(0),
        values: new Float64Array(0),
      }),
    );
    const measurement: Measurement = { file: '', sha256: '', columns, remarks: [] };
    return simulatedFor(measurement, readWith(changes).scenario, null);
  };

/** What a bench would have measured of a run: every 2 ms, with even noise of the given half width. */
async function measure(
  changes: readonly Change[],
  noise: Readonly<Record<string, number>>,
  seed: number,
): Promise<Measurement> {
  const random = new Random(seed);
  const result = await runWith(Object.keys(noise))(changes);
  const columns = Object.entries(noise).map(([channel, half]): MeasuredColumn => {
    const stream = result.streams.find((s) => s.channel === channel)!;
    const time_s = Float64Array.from({ length: 190 }, (_, k) => 0.01 + 0.002 * k);
    const values = time_s.map((t) => simulatedAt(stream, t) + half * (2 * random.uniform() - 1));
    return { column: channel, channel, time_s, values };
  });
  return { file: 'bench.csv', sha256: 'sum', columns, remarks: [] };
}

describe('fitParameters()', () => {
  const truth: readonly Change[] = [
    { path: 'shelves.droop', value: '0.8 mΩ' },
    { path: 'firmware.smoothing.time_constant', value: '1.3 s' },
  ];
  const words = ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'firmware.smoothing.time_constant = 0.5 s to 4 s'];
  const channels = { 'A.S1.voltage_V': 0.01, 'S1.current_A': 2 };

  test('recovers what a noisy bench was made with, inside its stated intervals', async () => {
    const measurement = await measure(truth, channels, 5);
    const report = await fitParameters({
      adjusted: adjustedOf(words, readWith([])),
      measurement,
      run: runWith(Object.keys(channels)),
      at_s: 0,
    });
    const droop = report.result['shelves.droop']!;
    const constant = report.result['firmware.smoothing.time_constant']!;
    const inside = ({ interval }: typeof droop, value: number) =>
      interval![0] < value && value < interval![1];
    expect(inside(droop, 0.8e-3)).toBe(true);
    expect(inside(constant, 1.3)).toBe(true);
    // The intervals say something: narrower than a tenth of the ranges.
    expect(droop.interval![1] - droop.interval![0]).toBeLessThan(0.08e-3);
    expect(constant.interval![1] - constant.interval![0]).toBeLessThan(0.35);
    expect(report.error_before).toBeGreaterThan(3);
    // Even noise has the deviation its half width over √3: what is left is noise alone.
    expect(report.error_after).toBeGreaterThan(0.7);
    expect(report.error_after).toBeLessThan(1.3);
    expect(report.cannot_tell_apart).toEqual([]);
    expect(report.converged).toBe(true);
  });

  test('says that two resistances in series cannot be told apart', async () => {
    const measurement = await measure(
      [{ path: 'banks.esr', value: '3 mΩ' }],
      { 'A.S1.voltage_V': 0.001, 'K1.current_A': 1 },
      6,
    );
    const report = await fitParameters({
      adjusted: adjustedOf(['banks.esr = 0.2 mΩ to 6 mΩ', 'banks.connection = 0 mΩ to 6 mΩ'], readWith([])),
      measurement,
      run: runWith(['A.S1.voltage_V', 'K1.current_A']),
      at_s: 0,
    });
    expect(report.cannot_tell_apart).toEqual([['banks.esr', 'banks.connection']]);
    expect(Object.values(report.result).map(({ interval }) => interval)).toEqual([null, null]);
  });

  test('says that a parameter has no effect on what was measured', async () => {
    const measurement = await measure([], { 'A.S1.voltage_V': 0.01 }, 7);
    const report = await fitParameters({
      adjusted: adjustedOf(
        ['sleds.restart_time = 0.2 s to 5 s', 'shelves.droop = 0.4 mΩ to 1.2 mΩ'],
        readWith([]),
      ),
      measurement,
      run: runWith(['A.S1.voltage_V']),
      at_s: 0,
    });
    expect(report.without_effect).toEqual(['sleds.restart_time']);
    expect(report.result['sleds.restart_time']!.interval).toBeNull();
    expect(report.result['shelves.droop']!.interval).not.toBeNull();
  });
});

test('noiseOf() finds the deviation of noise on a curve with edges', () => {
  const random = new Random(9);
  const values = Float64Array.from(
    { length: 4000 },
    (_, i) => (i % 500 < 250 ? 0 : 100) + 2 * random.gaussian(),
  );
  expect(noiseOf(values)).toBeCloseTo(2, 0);
});

test('adjustedOf() takes ranges from the model, and asks for one where the model states none', () => {
  const read = readWith([]);
  const [droop] = adjustedOf(['shelves.droop'], read);
  expect([droop!.low < droop!.start, droop!.start < droop!.high]).toEqual([true, true]);
  expect(() => adjustedOf(['load.after', 'shelves.drop'], read)).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.after
      found     a parameter whose model states no range
      expected  a range from low to high
      mend      give --adjust "load.after = 120 kW to 480 kW"
    shelves.drop
      found     path shelves.drop
      expected  a number of the scenario
      mend      nearest: shelves.droop, shelves.add, shelves.move
    2 problems. Nothing was run.]
  `);
  expect(() => adjustedOf([], read)).toThrow(/nothing to adjust/);
});
