/** The true model, as different instruments write it: none of them is a misfit, and each gives the truth back. */
import { expect, test } from 'vitest';
import { bus, exact, fitOnStep, holds, shelf } from './bench.ts';

test.each([
  ['instants, 1 kHz', undefined, 1e-3],
  ['instants, 10 kHz', undefined, 1e-4],
  ['means over 1 ms', 'averaging 1 ms', 1e-3],
  ['a pole at 3 kHz, 10 kHz', 'corner 3 kHz', 1e-4],
] as const)('%s', async (_, words, interval_s) => {
  const report = await fitOnStep({
    truth: [
      { path: 'shelves.droop', value: '0.8 mΩ' },
      { path: 'banks.capacitance', value: '74 mF' },
    ],
    probes: exact.map((probe) =>
      words === undefined ? probe : { ...probe, sensor: `${probe.sensor}, ${words}` },
    ),
    adjust: ['shelves.droop = 0.4 mΩ to 1.2 mΩ', 'banks.capacitance = 40 mF to 160 mF'],
    seed: 5,
    interval_s,
    placeGiven: false,
  });
  expect(report.misfit).toEqual([]);
  expect(holds(report, 'shelves.droop', 0.8e-3)).toBe(true);
  expect(holds(report, 'banks.capacitance', 74e-3)).toBe(true);
});

test('means that are not declared are a misfit', async () => {
  const { misfit } = await fitOnStep({
    truth: [],
    probes: [bus, { ...shelf, noise: 0.1, sensor: 'shunt, averaging 1 ms' }],
    adjust: ['shelves.droop = 0.4 mΩ to 1.2 mΩ'],
    seed: 5,
    altered: ({ sensor: _, ...column }) => column,
  });
  expect(misfit.map(({ channel }) => channel)).toContain(shelf.channel);
});
