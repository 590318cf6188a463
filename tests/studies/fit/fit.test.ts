import { describe, expect, test } from 'vitest';
import { bus, exact, fitOnStep, holds, shelf } from './bench.ts';

describe('fitParameters()', () => {
  test('recovers what a noisy bench was made with, inside its stated intervals', async () => {
    const report = await fitOnStep({
      truth: [
        { path: 'shelves.droop', value: '0.8 mΩ' },
        { path: 'banks.capacitance', value: '74 mF' },
      ],
      probes: exact,
      adjust: ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'banks.capacitance = 40 mF to 160 mF'],
      seed: 5,
      placeGiven: false,
    });
    expect(holds(report, 'shelves.droop', 0.8e-3)).toBe(true);
    expect(holds(report, 'banks.capacitance', 74e-3)).toBe(true);
    // The intervals say something: narrower than a twentieth of the ranges.
    const width = (path: string): number => {
      const { interval, range } = report.result[path]!;
      return (interval![1] - interval![0]) / (range[1] - range[0]);
    };
    expect(width('shelves.droop')).toBeLessThan(0.05);
    expect(width('banks.capacitance')).toBeLessThan(0.05);
    expect(report.error_before).toBeGreaterThan(1.5);
    expect(report.error_after).toBeGreaterThan(0.7);
    expect(report.error_after).toBeLessThan(1.3);
    expect(report.cannot_tell_apart).toEqual([]);
    expect(report.misfit).toEqual([]);
    // Its place was found with the values: 10 ms, known to a part of an interval.
    const [from_s, to_s] = report.measured_at_interval_s!;
    expect([from_s < 0.01, 0.01 < to_s, to_s - from_s < 1e-3]).toEqual([true, true, true]);
    expect(report.converged).toBe(true);
    // Bands hold no more than all of what is left, and less of it than before.
    for (const { bands, rms_before, rms_after } of report.channels) {
      const power = (side: 'rms_before' | 'rms_after'): number =>
        bands.reduce((sum, band) => sum + (band[side] ?? 0) ** 2, 0);
      expect(power('rms_after')).toBeGreaterThan(0.2 * rms_after ** 2);
      expect(power('rms_after')).toBeLessThan(1.01 * rms_after ** 2);
      expect(power('rms_before')).toBeLessThan(1.01 * rms_before ** 2);
    }
    // A profile reaches both ends of its interval to 5 %, where its root is Student's factor; a line leads from there.
    for (const { profile, interval, value } of Object.values(report.result)) {
      const at = (end: number) =>
        profile.reduce((near, point) =>
          Math.abs(point.value - end) < Math.abs(near.value - end) ? point : near,
        );
      expect(at(value).t).toBe(0);
      expect(Math.abs(at(interval![0]).t / report.profile_end + 1)).toBeLessThan(0.06);
      expect(Math.abs(at(interval![1]).t / report.profile_end - 1)).toBeLessThan(0.06);
    }
    // The model is nearly straight over so narrow an interval: the profile says what the slopes say.
    const { interval, linear_interval } = report.result['banks.capacitance']!;
    for (const end of [0, 1] as const) {
      expect(Math.abs(interval![end] - linear_interval![end])).toBeLessThan(
        0.1 * (interval![1] - interval![0]),
      );
    }
  });

  test('says that two resistances in series cannot be told apart', async () => {
    const report = await fitOnStep({
      truth: [{ path: 'banks.esr', value: '3 mΩ' }],
      probes: [
        { ...bus, noise: 0.001 },
        { channel: 'K1.current_A', noise: 0.5, decimals: 1 },
      ],
      adjust: ['banks.esr = 0.2 mΩ to 6 mΩ', 'banks.connection = 0 mΩ to 6 mΩ'],
      seed: 6,
    });
    expect(report.cannot_tell_apart).toEqual([['banks.esr', 'banks.connection']]);
    expect(Object.values(report.result).map(({ interval }) => interval)).toEqual([null, null]);
  });

  test('says that a parameter has no effect on what was measured', async () => {
    const report = await fitOnStep({
      truth: [],
      adjust: ['sleds.restart_time = 0.2 s to 5 s', 'shelves.droop = 0.4 mΩ to 1.2 mΩ'],
      seed: 7,
    });
    expect(report.without_effect).toEqual(['sleds.restart_time']);
    expect(report.result['sleds.restart_time']!.interval).toBeNull();
    expect(report.result['shelves.droop']!.interval).not.toBeNull();
  });

  test('refuses intervals of a wrong model, says where it is wrong, and what would explain it', async () => {
    const report = await fitOnStep({
      truth: [{ path: 'shelves.output_capacitance', value: '26 mF' }],
      adjust: ['banks.esr = 0.2 mΩ to 2 mΩ'],
      seed: 8,
      suspected: true,
    });
    expect(report.result['banks.esr']!.interval).toBeNull();
    expect(report.result['banks.esr']!.linear_interval).toBeNull();
    expect(report.misfit.map(({ channel }) => channel)).toContain(shelf.channel);
    // The step is at 50 ms of the run, and what differs is over within some milliseconds.
    expect(Math.abs(report.misfit[0]!.moment_s - 0.055)).toBeLessThan(0.01);
    const named = report.would_explain.map((one) => ('path' in one ? one.path : one.kind));
    expect(named).toContain('shelves.output_capacitance');
    expect(report.would_explain[0]!.explains_ratio).toBeGreaterThan(0.5);
  });
});

describe('a channel that is read by another scale', () => {
  test.each([
    [bus.channel, 1.1, /^a gain of 1\.\d+ \(.*\) and a bias of [45]\.\d+ V \(/],
    [shelf.channel, 1.2, /a gain of 1\.\d+ \(.*± 1 % allowed\)/],
  ])('%s by %d is a misfit that says so, with number and interval', async (off, gain, wanted) => {
    const { misfit, measured_at_interval_s } = await fitOnStep({
      truth: [],
      adjust: ['banks.esr = 0.2 mΩ to 2 mΩ'],
      seed: 11,
      altered: (column) =>
        column.channel === off ? { ...column, values: column.values.map((value) => gain * value) } : column,
    });
    const found = misfit.find(({ channel }) => channel === off)!;
    expect(found.scale_beyond).toMatch(wanted);
    expect(measured_at_interval_s).toBeNull();
  });
});

test('a voltage by 1.1 is a bias of the voltage, also where the fit bends its values and its place for it', async () => {
  const { misfit } = await fitOnStep({
    truth: [],
    adjust: ['shelves.droop', 'banks.capacitance'],
    seed: 12,
    placeGiven: false,
    altered: (column) =>
      column.channel === bus.channel
        ? { ...column, values: column.values.map((value) => 1.1 * value) }
        : column,
  });
  const words = Object.fromEntries(misfit.map(({ channel, scale_beyond }) => [channel, scale_beyond]));
  expect(words[bus.channel]).toMatch(/a bias of 5\.0\d* V/);
  expect(words[shelf.channel] ?? null).toBeNull();
});

describe('a parameter on a grid', () => {
  test('of ticks, a latency, is found within its interval and can be run as it is printed', async () => {
    const report = await fitOnStep({
      truth: [{ path: 'firmware.smoothing.latency', value: '1.25 ms' }],
      probes: [{ channel: 'T1.power_W', noise: 20, decimals: 0 }],
      adjust: ['firmware.smoothing.latency = 0.2 ms to 4 ms'],
      seed: 9,
    });
    expect(holds(report, 'firmware.smoothing.latency', 1.25e-3)).toBe(true);
    const [low, high] = report.result['firmware.smoothing.latency']!.interval!;
    expect(high - low).toBeLessThan(0.2e-3);
    const ticks = report.result['firmware.smoothing.latency']!.value / 0.25e-6;
    expect(Math.abs(ticks - Math.round(ticks))).toBeLessThan(1e-6);
  });

  test('of counts is found, with an interval of whole numbers', async () => {
    const report = await fitOnStep({
      truth: [{ path: 'shelves.module_count', value: '3' }],
      // As many bulk capacitors: what the bulk falls by on an edge.
      probes: [{ channel: 'S1.bulk_V', noise: 0.3, decimals: 1 }],
      adjust: ['shelves.module_count = 2 to 9'],
      seed: 10,
    });
    expect(report.without_effect).toEqual([]);
    expect(report.result['shelves.module_count']).toMatchObject({ value: 3, interval: [3, 3] });
  });
});
