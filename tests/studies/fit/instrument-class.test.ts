/** What the class of an instrument leaves open is no misfit and lies in the interval; what it does not is named. */
import { describe, expect, test } from 'vitest';
import type { MeasuredColumn } from '../../../src/measured/measurement.ts';
import { bus, exact, fitOnStep, holds, shelf } from './bench.ts';

const truth = [
  { path: 'shelves.droop', value: '0.712 mΩ' },
  { path: 'banks.capacitance', value: '75 mF' },
];
const adjust = ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'banks.capacitance = 40 mF to 160 mF'];
const ofChannel =
  (channel: string, read: (value: number) => number) =>
  (column: MeasuredColumn): MeasuredColumn =>
    column.channel === channel ? { ...column, values: column.values.map(read) } : column;

describe('a channel within its class', () => {
  test.each([
    ['0.08 V too high', bus.channel, (v: number) => v + 0.08],
    ['by 1.009', shelf.channel, (i: number) => 1.009 * i],
  ])('%s keeps its intervals, which hold the truth', async (_, channel, read) => {
    const report = await fitOnStep({ truth, adjust, seed: 22, altered: ofChannel(channel, read) });
    expect(report.misfit).toEqual([]);
    expect(holds(report, 'shelves.droop', 0.712e-3)).toBe(true);
    expect(holds(report, 'banks.capacitance', 75e-3)).toBe(true);
  });
});

describe('a channel beyond its class', () => {
  test('by its bias is a misfit of that channel, which would explain it', async () => {
    const { misfit, would_explain } = await fitOnStep({
      truth,
      adjust,
      seed: 22,
      suspected: true,
      altered: ofChannel(bus.channel, (v) => v + 0.3),
    });
    expect(misfit[0]).toMatchObject({ channel: bus.channel });
    expect(misfit[0]!.scale_beyond).toMatch(/^a bias of (29|30)\d\.?\d* mV/);
    expect(would_explain.filter((one) => 'path' in one && one.path === shelf.channel)).toEqual([]);
  });

  test('by a factor is named by it, before its zero and any parameter', async () => {
    const { misfit, would_explain } = await fitOnStep({
      truth,
      probes: exact,
      adjust,
      seed: 23,
      suspected: true,
      altered: ofChannel(shelf.channel, (i) => 1.05 * i),
    });
    expect(misfit.map(({ channel }) => channel)).toContain(shelf.channel);
    expect(would_explain[0]).toMatchObject({ kind: 'gain', path: shelf.channel });
    expect(would_explain[0]).toMatchObject({ gain_ratio: expect.closeTo(1.05, 3) });
  });
});

test('a file that begins on the settling curve leaves the place open over many samples, and the values with it', async () => {
  for (const seed of [31]) {
    const report = await fitOnStep({
      truth: [],
      adjust: ['shelves.droop', 'banks.capacitance'],
      seed,
      placeGiven: false,
      cut: { by_s: 0.15, to_s: 0.045 },
    });
    const place = report.measured_at_interval_s;
    expect(report.misfit).toEqual([]);
    if (place !== null)
      expect([place[0] < 0.16, 0.16 < place[1], place[1] - place[0] > 0.01]).toEqual([true, true, true]);
    for (const [path, value] of [
      ['shelves.droop', 694e-6],
      ['banks.capacitance', 0.08],
    ] as const)
      expect([path, report.result[path]!.interval === null || holds(report, path, value)]).toEqual([
        path,
        true,
      ]);
  }
});

test('values on a grid of 0.1 V and 10 A are no misfit, and leave intervals as wide as that', async () => {
  const onGrid =
    (grid: Readonly<Record<string, number>>) =>
    (column: MeasuredColumn): MeasuredColumn => {
      const q = grid[column.channel]!;
      return { ...column, values: column.values.map((value) => q * Math.round(value / q)) };
    };
  const fine = await fitOnStep({ truth, adjust, seed: 24 });
  const coarse = await fitOnStep({
    truth,
    adjust,
    seed: 24,
    altered: onGrid({ [bus.channel]: 0.1, [shelf.channel]: 10 }),
  });
  expect(coarse.misfit).toEqual([]);
  for (const { path, value } of [
    { path: 'shelves.droop', value: 0.712e-3 },
    { path: 'banks.capacitance', value: 75e-3 },
  ])
    expect([path, holds(coarse, path, value)]).toEqual([path, true]);
  const width = (report: typeof fine): number => {
    const [low, high] = report.result['banks.capacitance']!.interval!;
    return high - low;
  };
  expect(width(coarse)).toBeGreaterThan(3 * width(fine));
});
