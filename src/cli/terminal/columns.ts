/** Text in columns, for a terminal. */

/** Cells of a row padded to the widest of their column; the last is left as it is. `right` columns lean right. */
export function alignColumns(
  rows: readonly (readonly string[])[],
  right: ReadonlySet<number> = new Set(),
): string[][] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, k) => {
      widths[k] = Math.max(widths[k] ?? 0, cell.length);
    });
  }
  return rows.map((row) =>
    row.map((cell, k) => {
      if (right.has(k)) return cell.padStart(widths[k]!);
      return k === row.length - 1 ? cell : cell.padEnd(widths[k]!);
    }),
  );
}

/** Words broken into lines of at most `width`, later lines indented; spaces in front stay. */
export function wrap(text: string, width: number, indent = ''): string[] {
  const [first = '', ...words] = text.trimStart().split(' ');
  const lines: string[] = [];
  let line = text.slice(0, text.length - text.trimStart().length) + first;
  for (const word of words) {
    if (line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent + word;
    } else {
      line += ` ${word}`;
    }
  }
  lines.push(line);
  return lines;
}
