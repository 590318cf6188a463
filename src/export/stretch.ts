/** A part of a run, by time: what of it is given out. */
import type { Cells, ExportTable } from './table.ts';

/** Both ends belong to it [s]. */
export interface ExportStretch {
  readonly from_s: number;
  readonly to_s: number;
}

export const wholeRun: ExportStretch = { from_s: Number.NEGATIVE_INFINITY, to_s: Number.POSITIVE_INFINITY };

/** The rows of the stretch: by their `time_s`, or where they have `from_s` and `to_s` those that share time with it. */
export function rowsWithin(table: ExportTable, { from_s, to_s }: ExportStretch): ExportTable {
  const names = table.columns.map(({ name }) => name);
  const begins = Math.max(names.indexOf('time_s'), names.indexOf('from_s'));
  if (begins < 0) throw new RangeError(`${table.name} has no column of time`);
  const ends = names.includes('to_s') ? names.indexOf('to_s') : begins;
  const isSpan = ends !== begins;
  const first = firstRow(table, (row) => (isSpan ? row(ends) > from_s : row(begins) >= from_s));
  const end = firstRow(table, (row) => (isSpan ? row(begins) >= to_s : row(begins) > to_s));
  return {
    ...table,
    rows: Math.max(0, end - first),
    block: (from, to): readonly Cells[] => table.block(first + from, first + to),
  };
}

/** The first row for which it holds, of rows that rise in time; all of them where it never does. */
function firstRow(table: ExportTable, holds: (row: (column: number) => number) => boolean): number {
  let [low, high] = [0, table.rows];
  while (low < high) {
    const middle = (low + high) >> 1;
    const cells = table.block(middle, middle + 1);
    if (holds((column) => Number(cells[column]![0]))) high = middle;
    else low = middle + 1;
  }
  return low;
}
