/** Tables of studies on a terminal. */
import type { PlainRow } from '../../../studies/tables.ts';
import { alignColumns, wrap } from '../columns.ts';
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

/** Narrower than this the last column stands below its row. */
const leastWords = 40;

/** The same in lines of at most `width` where the rest of a row leaves room for it: its last cell goes on below. */
export function wrappedTable(
  head: readonly string[],
  rows: readonly PlainRow[],
  paint: Paint,
  { right, width }: { readonly right?: ReadonlySet<number>; readonly width: number },
): string[] {
  const last = head.length - 1;
  const without = rows.map((row) => row.slice(0, last));
  const before = tableText(head.slice(0, last), without, (_, text) => text, right);
  const beside = Math.max(...before.map((line) => line.length)) + 2;
  const isBelow = beside + leastWords > width;
  const from = isBelow ? 6 : beside;
  return [head, ...rows].flatMap((row, k) => {
    const words = wrap(String(row[last] ?? ''), width - from).filter((line) => line !== '');
    const first = isBelow ? '' : (words.shift() ?? '');
    const line = `${before[k]!.padEnd(first === '' ? 0 : from)}${first}`;
    return [k === 0 ? paint('faint', line) : line, ...words.map((more) => `${' '.repeat(from)}${more}`)];
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
