/** Which mark parts the cells of a text: the one that most lines agree on. */

export type Delimiter = ',' | ';' | '\t' | '|' | 'blanks';

/** Spelled for people. */
export const delimiterNames: Readonly<Record<Delimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'bars',
  blanks: 'blanks',
};

/** Tried in this order: what may be a decimal mark or stand within a cell comes late. */
export const delimiters: readonly Delimiter[] = ['\t', ';', '|', ',', 'blanks'];

/**
 * The delimiter that gives two cells or more in most of the lines, the same number in most of those. A comma is
 * taken before a semicolon only where no line has one. null: no delimiter parts these lines.
 */
export function delimiterOf(lines: readonly string[]): Delimiter | null {
  let best: Delimiter | null = null;
  let bestAgreement = 0;
  for (const candidate of delimiters) {
    const widths = new Map<number, number>();
    for (const line of lines) {
      const width = widthOf(line, candidate);
      if (width > 1) widths.set(width, (widths.get(width) ?? 0) + 1);
    }
    const agreement = Math.max(0, ...widths.values());
    if (agreement > bestAgreement * 1.2 && agreement >= 0.5 * lines.length) {
      best = candidate;
      bestAgreement = agreement;
    }
  }
  return best;
}

/** Whether the mark stands in the line at all. */
export function holds(line: string, mark: Delimiter): boolean {
  return mark === 'blanks' ? /\S\s+\S/.test(line) : line.includes(mark);
}

function widthOf(line: string, delimiter: Delimiter): number {
  if (delimiter === 'blanks') return line.trim().split(/\s+/).length;
  if (!line.includes('"')) return line.split(delimiter).length;
  return line.replace(/"[^"]*"/g, '').split(delimiter).length;
}
