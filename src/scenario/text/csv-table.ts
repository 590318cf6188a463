/**
 * A short table as spreadsheets write it (RFC 4180; commas, semicolons or tabs) to cells that know where they stand, which
 * the reader of recordings does not tell. Lines that begin with # are remarks, above the head line alone: below it one may be
 * a row whose first cell begins so. Cells stay text as they were written, but for blanks around them.
 */
import type { Problem } from '../../base/problem.ts';
import { type Leaf, problemAt } from './document.ts';

export interface CsvTable {
  readonly mark: string;
  readonly head: readonly Leaf[];
  /** Without rows whose cells are all empty. */
  readonly rows: readonly (readonly Leaf[])[];
  readonly remarks: readonly string[];
}

const marks = [';', '\t', ','] as const;

/** Null where quotes do not close, or there is no line; what is wrong is added to `problems`. */
export function readCsvTable(file: string, written: string, problems: Problem[]): CsvTable | null {
  const text = written.replace(/^\ufeff/, '');
  const firstLine = text.split(/\r\n|\r|\n/).find((line) => line.trim() !== '' && !isRemark(line)) ?? '';
  const mark = marks.find((candidate) => firstLine.includes(candidate)) ?? ',';
  const reader = new CellReader(file, text, mark);
  const remarks: string[] = [];
  const rows: Leaf[][] = [];
  while (!reader.ended) {
    const { lineNow } = reader;
    const remark = reader.remark();
    if (remark !== null) {
      remarks.push(remark);
      if (rows.length > 0) problems.push(afterRows(file, lineNow, remark));
      continue;
    }
    const row = reader.row();
    if (row === null) {
      problems.push(
        problemAt(
          reader.opened,
          '',
          'a quote that does not close',
          'a cell in quotes',
          'add the second quote',
        ),
      );
      return null;
    }
    if (row.some((cell) => cell.text !== '')) rows.push(row);
  }
  const [head, ...others] = rows;
  if (head !== undefined) return { mark, head, rows: others, remarks };
  problems.push(
    problemAt(
      { file, line: 1, column: 1 },
      '',
      'no line',
      'a head line and rows',
      'write the names of the columns',
    ),
  );
  return null;
}

function afterRows(file: string, line: number, remark: string): Problem {
  return problemAt(
    { file, line, column: 1 },
    '',
    `a line that begins with # below the head line: ${remark.slice(0, 60)}`,
    'rows; remarks stand above the head line',
    'put the first cell in quotes where it is a row, or move the remark to the top',
  );
}

function isRemark(line: string): boolean {
  return line.trimStart().startsWith('#');
}

class CellReader {
  private at = 0;
  private line = 1;
  private lineFrom = 0;
  private readonly file: string;
  private readonly text: string;
  private readonly mark: string;
  /** Where the last quote was opened. */
  opened: Leaf['origin'];

  constructor(file: string, text: string, mark: string) {
    this.file = file;
    this.text = text;
    this.mark = mark;
    this.opened = { file, line: 1, column: 1 };
  }

  get ended(): boolean {
    return this.at >= this.text.length;
  }

  get lineNow(): number {
    return this.line;
  }

  /** The line that begins here, where it is a remark; null where it is none. */
  remark(): string | null {
    const line = /[^\r\n]*/y;
    line.lastIndex = this.at;
    const [words] = line.exec(this.text)!;
    if (!isRemark(words)) return null;
    this.at += words.length;
    this.endLine();
    return words.trim().replace(/^#+\s*/, '');
  }

  /** Cells up to the end of the line; null where a quote does not close. */
  row(): Leaf[] | null {
    const cells: Leaf[] = [];
    for (;;) {
      const cell = this.cell();
      if (cell === null) return null;
      cells.push(cell);
      if (this.text[this.at] !== this.mark) break;
      this.at += 1;
    }
    this.endLine();
    return cells;
  }

  private cell(): Leaf | null {
    const blanks = /[ \u00a0]*/y;
    blanks.lastIndex = this.at;
    this.at += blanks.exec(this.text)![0].length;
    const origin = { file: this.file, line: this.line, column: this.at - this.lineFrom + 1 };
    let words = '';
    if (this.text[this.at] === '"') {
      this.opened = origin;
      const inner = /"((?:[^"]|"")*)"/y;
      inner.lastIndex = this.at;
      const found = inner.exec(this.text);
      if (found === null) return null;
      words = found[1]!.replaceAll('""', '"');
      this.count(this.at, this.at + found[0].length);
      this.at += found[0].length;
    }
    let end = this.at;
    while (end < this.text.length && !['\r', '\n', this.mark].includes(this.text[end]!)) end += 1;
    words += this.text.slice(this.at, end);
    this.at = end;
    return { kind: 'leaf', text: words.trim(), origin };
  }

  /** Line breaks within a cell. */
  private count(from: number, to: number): void {
    for (let k = from; k < to; k++) {
      if (this.text[k] !== '\n') continue;
      this.line += 1;
      this.lineFrom = k + 1;
    }
  }

  private endLine(): void {
    if (this.text[this.at] === '\r') this.at += 1;
    if (this.text[this.at] === '\n') this.at += 1;
    this.line += 1;
    this.lineFrom = this.at;
  }
}
