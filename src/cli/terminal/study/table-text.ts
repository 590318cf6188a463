/** Tables of studies on a terminal. */
import type { PlainRow } from '../../../studies/tables.ts';
import { alignColumns } from '../columns.ts';
import type { Paint } from '../paint.ts';

export function tableText(
  head: readonly string[],
  rows: readonly PlainRow[],
  paint: Paint,
  right: ReadonlySet<number> = new Set(),
): string[] {
  const text = [[...head], ...rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell))))];
  return alignColumns(text, right).map((row, k) => {
    const line = `  ${row.join('  ')}`.trimEnd();
    return k === 0 ? paint('faint', line) : line;
  });
}

/** A few rows of a table below a title that says how many it has. Without rows it is left out. */
export function shortTable(
  title: string,
  { head, rows, right, first = 0 }: ShortTable,
  most: number,
  paint: Paint,
): string[] {
  if (rows.length === 0) return [];
  const count = rows.length > most ? paint('faint', `  ${most} of ${rows.length}`) : '';
  return [
    '',
    `${paint('strong', title)}${count}`,
    ...tableText(head, rows.slice(first, first + most), paint, right),
  ];
}

export interface ShortTable {
  readonly head: readonly string[];
  readonly rows: readonly PlainRow[];
  /** Columns that lean right. */
  readonly right?: ReadonlySet<number>;
  /** The row that is shown first; the first of all where it is left out. */
  readonly first?: number;
}
