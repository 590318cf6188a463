import { expect, it } from 'vitest';
import { csvOf } from '../../../web/taken/csv.ts';
import { rowAt } from '../../../web/taken/table.ts';

it('csvOf() writes every row, digits that read back to the same bits, and nothing where there is nothing', () => {
  const values = [0.1 + 0.2, Number.NaN, Math.fround(47.86)];
  const text = csvOf({
    over: { name: 'time_s', values: [0, 0.5, 1] },
    columns: [{ name: 'sled-8.voltage_V.min', values }],
  });
  expect(text).toBe(
    'time_s,sled-8.voltage_V.min\r\n0,0.30000000000000004\r\n0.5,\r\n1,47.86000061035156\r\n',
  );
});

it('csvOf() begins no cell with a formula, whatever a column is called', () => {
  const named = (name: string): string =>
    csvOf({ over: { name: 'time_s', values: [] }, columns: [{ name, values: [] }] });
  expect(named('=HYPERLINK("x")')).toBe('time_s,"\'=HYPERLINK(""x"")"\r\n');
  expect(named('@sum.voltage_V')).toBe("time_s,'@sum.voltage_V\r\n");
});

it('rowAt() finds the row at or before a value, and the first where all lie after it', () => {
  const table = { over: { name: 'time_s', values: [1, 2, 4] }, columns: [] };
  expect([0, 1, 3.9, 4, 9].map((value) => rowAt(table, value))).toEqual([0, 0, 1, 2, 2]);
});
