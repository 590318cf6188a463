import type { Delimiter } from './delimiter.ts';

/** Cells of one line. A cell in double quotes may hold the delimiter and, doubled, quotes. */
export function splitRow(line: string, delimiter: Delimiter): string[] {
  if (line.includes('"')) return splitQuoted(line, delimiter);
  if (delimiter === 'blanks') return line.trim().split(/\s+/);
  return line.split(delimiter);
}

function splitQuoted(line: string, delimiter: Delimiter): string[] {
  const cells: string[] = [];
  const parts = (mark: string): boolean => (delimiter === 'blanks' ? /\s/.test(mark) : mark === delimiter);
  let cell = '';
  let inside = false;
  let ended = false;
  for (let i = 0; i < line.length; i++) {
    const mark = line[i]!;
    if (inside) {
      if (mark !== '"') cell += mark;
      else if (line[i + 1] === '"') {
        cell += '"';
        i++;
      } else inside = false;
    } else if (mark === '"' && cell.trim() === '') {
      cell = '';
      inside = true;
    } else if (parts(mark)) {
      if (delimiter !== 'blanks' || cell !== '' || ended) cells.push(cell);
      cell = '';
    } else cell += mark;
    ended = !inside && mark === '"';
  }
  if (delimiter !== 'blanks' || cell !== '' || ended) cells.push(cell);
  return cells;
}
