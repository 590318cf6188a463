import { describe, expect, test } from 'vitest';
import { rowsWithin } from '../../src/export/stretch.ts';
import { type ExportTable, numberColumn } from '../../src/export/table.ts';

/** Rows at 0, 0.1 s … 0.9 s, or from there to the next one. */
const table = (...columns: readonly string[]): ExportTable => ({
  name: 'rows',
  columns: columns.map(numberColumn),
  rows: 10,
  block: (from, to) =>
    columns.map((name) =>
      Float64Array.from({ length: to - from }, (_, k) => (from + k + (name === 'to_s' ? 1 : 0)) / 10),
    ),
});
const times = (within: ExportTable): number[] => [...(within.block(0, within.rows)[0] as Float64Array)];

describe('rowsWithin()', () => {
  test('keeps the rows whose time lies in the stretch, its ends included', () => {
    expect(times(rowsWithin(table('time_s', 'x'), { from_s: 0.2, to_s: 0.5 }))).toEqual([0.2, 0.3, 0.4, 0.5]);
  });

  test('keeps every interval that shares time with the stretch', () => {
    expect(times(rowsWithin(table('from_s', 'to_s'), { from_s: 0.25, to_s: 0.5 }))).toEqual([0.2, 0.3, 0.4]);
  });

  test('keeps no row outside, and all without bounds', () => {
    expect(rowsWithin(table('time_s'), { from_s: 2, to_s: 3 }).rows).toBe(0);
    const all = { from_s: Number.NEGATIVE_INFINITY, to_s: Number.POSITIVE_INFINITY };
    expect(rowsWithin(table('time_s'), all).rows).toBe(10);
  });
});
