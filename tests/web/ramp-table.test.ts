import { expect, it } from 'vitest';
import { rampsOver } from '../../web/panels/ramp-series.ts';
import { rampTable } from '../../web/panels/ramp-table.ts';
import { syntheticRun } from '../fixtures/run.ts';

it('rampTable() puts ramps of both lengths on one grid of moments, and none where two windows do not fit', () => {
  const { means } = syntheticRun(10).result;
  const [short, long] = [rampsOver(means, 0.1)!, rampsOver(means, 1)!];
  const { over, columns } = rampTable([
    { ...long, id: 'ac-ramp-1s' },
    { ...short, id: 'ac-ramp-100ms' },
  ]);
  expect(columns.map(({ name }) => name)).toEqual(['ac_ramp_1s_W_per_s', 'ac_ramp_100ms_W_per_s']);
  expect(over.values[0]).toBeCloseTo(0.1, 9);
  expect(over.values[over.values.length - 1]).toBeCloseTo(9.9, 9);
  const at = (t_s: number): number[] => {
    const row = Array.from(over.values).findIndex((value) => Math.abs(value - t_s) < 1e-6);
    return columns.map(({ values }) => values[row]!);
  };
  expect(at(0.99)[0]).toBeNaN();
  expect(at(1)[0]).toBe(long.series.min[0]);
  expect(at(1)[1]).toBe(short.series.min[90]);
  expect(at(9.01)[0]).toBeNaN();
});
