/** A table as CSV (RFC 4180): every row, numbers that read back to the same bits, nothing that begins a formula. */
import { numberCell, textCell } from '../../src/base/csv-cell.ts';
import type { Table } from './table.ts';

export function csvOf({ over, columns }: Table): string {
  const all = [over, ...columns];
  const lines = [all.map(({ name }) => textCell(name)).join(',')];
  for (let row = 0; row < over.values.length; row += 1)
    lines.push(all.map(({ values }) => cell(values[row]!)).join(','));
  return `${lines.join('\r\n')}\r\n`;
}

function cell(value: number): string {
  return Number.isNaN(value) ? '' : numberCell(value);
}
