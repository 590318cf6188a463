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
