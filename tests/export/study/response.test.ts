/** Limit cycles of a response as a table: what is predicted, and why nothing is. */
import { expect, it } from 'vitest';
import { responseTables } from '../../../src/export/study/response.ts';
import type { LimitCycle } from '../../../src/studies/response/cycles/limit-cycles.ts';
import type { ResponseReport } from '../../../src/studies/response/report.ts';

const cycle: LimitCycle = {
  element: 'trim quantum',
  direction: 'S1 against S2',
  size: 1e-3,
  unit: 'V',
  kind: 'cycle',
  why: null,
  frequency_Hz: 17.5,
  given: 'trim',
  amplitude: 5.7e-4,
  shelf_current_A: null,
};
const silent: LimitCycle = {
  ...cycle,
  element: 'slew limit',
  kind: 'none',
  why: 'no cycle balances',
  frequency_Hz: null,
  amplitude: null,
};

it('limit cycles: one row an element and direction, empty cells where nothing is predicted', () => {
  const report = {
    curves: [],
    modes: [],
    loops: [],
    minor_loops: [],
    limit_cycles: [cycle, silent],
    over: null,
  };
  const table = responseTables(report as unknown as ResponseReport).find(
    ({ name }) => name === 'limit-cycles',
  )!;
  expect(table.rows).toBe(2);
  const cells = table.block(0, 2);
  const row = (k: number) => Object.fromEntries(table.columns.map(({ name }, c) => [name, cells[c]![k]]));
  expect(row(0)).toEqual({ ...cycle });
  expect(row(1)).toEqual({ ...silent });
});
