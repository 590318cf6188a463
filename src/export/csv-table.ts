/**
 * A table as CSV (RFC 4180): one line of names, then one line a row. Numbers in the fewest digits that read back to the
 * same bits of their precision (`NaN` and `Infinity` spelled out), nothing where there is nothing; what begins like a formula is guarded.
 */
import { closeSync, openSync, writeSync } from 'node:fs';
import { numberCell, singleCell, textCell } from '../base/csv-cell.ts';
import type { Cells, TableColumn, TableWriter } from './table.ts';

/** Rows that become one text at a time. */
const rowsPerText = 512;

export function csvTable(path: string, columns: readonly TableColumn[]): TableWriter {
  const file = openSync(path, 'w');
  writeWhole(file, `${columns.map(({ name }) => textCell(name)).join(',')}\r\n`);
  return {
    write: (cells) => {
      const rows = cells[0]?.length ?? 0;
      for (let from = 0; from < rows; from += rowsPerText)
        writeWhole(file, linesOf(cells, from, Math.min(rows, from + rowsPerText)));
    },
    close: () => closeSync(file),
  };
}

function linesOf(cells: readonly Cells[], from: number, to: number): string {
  let text = '';
  for (let j = from; j < to; j++) {
    for (let c = 0; c < cells.length; c++) {
      const column = cells[c]!;
      const cell = column[j]!;
      const number = column instanceof Float32Array ? singleCell : numberCell;
      const word = typeof cell === 'number' ? number(cell) : cell === null ? '' : textCell(cell);
      text += c === 0 ? word : `,${word}`;
    }
    text += '\r\n';
  }
  return text;
}

/** A write may take less than it was given. */
function writeWhole(file: number, text: string): void {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
}
