import { saysNaming } from '../../tables/columns/column-names.ts';

/** Most different values of a column that may name channels. */
const mostValues = 64;

/**
 * A column by whose name its values name things, and whose values come again and again: rows may belong to several
 * channels. A counter of the rows never repeats, and one that never changes names one thing.
 */
export function recurringName(
  names: readonly string[],
  unused: readonly string[],
  rows: readonly (readonly string[])[],
): { readonly name: string; readonly values: number } | null {
  const open = new Set(unused);
  for (let i = 0; i < names.length; i++) {
    const name = names[i]!.trim();
    if (!open.has(name) || !saysNaming(name)) continue;
    const values = new Set(rows.map((row) => (row[i] ?? '').trim())).size;
    if (values >= 2 && values <= mostValues && rows.length >= 2 * values) return { name, values };
  }
  return null;
}
