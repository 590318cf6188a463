import { isValueCell } from '../../tables/cells/value-cell.ts';
import { saysNaming } from '../../tables/columns/column-names.ts';

/** Most different values of a column that may name channels. */
const mostValues = 64;

/** Rows by which labels that alternate are told from a state that now and then changes. */
const leastRows = 12;
/** Share of the rows that carry another label than the row above, from which on labels alternate. */
const alternating = 0.3;

/**
 * A column whose values come again and again: rows may belong to several channels. By its name its values name things, or
 * its labels alternate from row to row, each about as often, which no state of one thing does. A counter of the rows
 * never repeats, and one that never changes names one thing. `channel`: where a column names channels already, the rows of
 * one of them are looked at, and labels that alternate there, as those of two machines with a device 0 each.
 */
export function recurringName(
  names: readonly string[],
  unused: readonly string[],
  rows: readonly (readonly string[])[],
  channel: number | null = null,
): { readonly name: string; readonly values: number } | null {
  const own = channel === null ? rows : rows.filter((row) => row[channel] === rows[0]?.[channel]);
  const open = new Set(unused);
  for (let i = 0; i < names.length; i++) {
    const name = names[i]!.trim();
    if (i === channel || !open.has(name)) continue;
    const cells = own.map((row) => (row[i] ?? '').trim());
    const values = new Set(cells).size;
    if (values < 2 || values > mostValues || own.length < 2 * values) continue;
    if ((channel === null && saysNaming(name)) || alternate(cells)) return { name, values };
  }
  return null;
}

function alternate(cells: readonly string[]): boolean {
  if (cells.length < leastRows || cells.some((cell) => !/\p{L}/u.test(cell) || isValueCell(cell)))
    return false;
  const times = new Map<string, number>();
  for (const cell of cells) times.set(cell, (times.get(cell) ?? 0) + 1);
  const counts = [...times.values()];
  const changes = cells.filter((cell, k) => k > 0 && cell !== cells[k - 1]).length;
  return changes > alternating * cells.length && Math.max(...counts) <= 1.5 * Math.min(...counts);
}
