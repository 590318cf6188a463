import { formatPercent } from '../base/quantity.ts';
import { readNumberCell } from './cells/number-cell.ts';
import { isValueCell, saysMissing } from './cells/value-cell.ts';
import { isUnits, namesColumns } from './columns/header.ts';
import type { TableColumns } from './columns/table-columns.ts';
import { cellsOf } from './rows/csv-rows.ts';
import { type Delimiter, delimiterNames, delimiters, holds } from './rows/delimiter.ts';

/** More lines than this share that give no sample are no detail: what they held may be the load. */
const notable_ratio = 0.01;

/** A name with its unit behind it: a remark in plain words has more blanks. */
const oneName = /^\S+(?:\s*[[(][^\])]*[\])])?$/;

/** A name as files have them, without blanks. */
const oneWord = /^[A-Za-z_][\w.-]*$/;

/** What a line is that belongs to another table than the rows above it. */
interface Foreign {
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Lines below the header that give no sample and do not say that nothing was measured. */
export class LostLines {
  count = 0;
  first: { readonly line: number; readonly text: string } | null = null;
  private readonly columns: TableColumns;
  private readonly delimiter: Delimiter | null;
  private readonly head: readonly string[];
  /** What the head calls the stamps; '' where it has no name for them. */
  private readonly stampName: string;

  /** `head`: the lines that name the columns and their units, which may stand again. */
  constructor(columns: TableColumns, delimiter: Delimiter | null, head: readonly (readonly string[])[]) {
    this.columns = columns;
    this.delimiter = delimiter;
    this.head = head.map(textOf);
    this.stampName = (head[0]?.[columns.time.index] ?? '').trim().toLowerCase();
  }

  /** Counts a line, or says why it and those below it cannot be rows of the same table. */
  meet(row: readonly string[], line: number): Foreign | null {
    if (row.every((cell) => cell.trim() === '') || this.head.includes(textOf(row))) return null;
    const text = row.join(' ').trim().slice(0, 60);
    if (namesColumns(row) || saysUnits(row) || this.namesStamps(row) || areNames(row))
      return anotherHead(text);
    const other = this.otherDelimiter(row);
    if (other !== null) {
      return {
        found: `cells parted by ${delimiterNames[other]}, in a file parted by ${delimiterNames[this.delimiter!]}`,
        expected: 'one mark between the cells of all lines',
        mend: 'write the same mark in all lines, or split the file there',
      };
    }
    this.lose(line, text);
    return null;
  }

  /** Where the stamp should stand its own name stands again, beside others than the head's: a table of something else. */
  private namesStamps(row: readonly string[]): boolean {
    const cell = (row[this.columns.time.index] ?? '').trim().toLowerCase();
    return cell !== '' && cell === this.stampName;
  }

  /** Says why the rows below a comment are no rows of the same table: it names columns, and others than the head does. */
  meetComment(text: string): Foreign | null {
    const row = cellsOf(text, this.delimiter ?? ',');
    const isRowOfNames = row.length > 1 && row.every((cell) => oneName.test(cell.trim()));
    return isRowOfNames && namesColumns(row) && !this.head.includes(textOf(row)) ? anotherHead(text) : null;
  }

  /** Counts a line that is no row at all. */
  lose(line: number, text: string): void {
    this.count++;
    this.first ??= { line, text };
  }

  /** A sentence where so many of all lines were lost that the recording may be another one. */
  warning(lines: number): string[] {
    const ratio = this.count / lines;
    if (this.first === null || !(ratio > notable_ratio)) return [];
    const { line, text } = this.first;
    return [
      `${formatPercent(ratio, 2)} of the lines give no sample (${this.count} of ${lines}), the first of them line ${line}${text === '' ? '' : `: ${text}`}.`,
    ];
  }

  /** The mark that would make a row of the line; null where none does, or where the line is one number, cut short. */
  private otherDelimiter(row: readonly string[]): Delimiter | null {
    const { delimiter } = this;
    if (delimiter === null || (row.length === 1 && isValueCell(row[0]!))) return null;
    const { time, values } = this.columns;
    const line = row.join(delimiter === 'blanks' ? '\t' : delimiter);
    const isRow = (cells: readonly string[]): boolean =>
      isValueCell(cells[time.index] ?? '') &&
      values.every((index) => readNumberCell(cells[index] ?? '', null).kind === 'number');
    // Most lines that give no sample hold no such mark: taking each apart once more is what made them slow.
    return (
      delimiters.find((mark) => mark !== delimiter && holds(line, mark) && isRow(cellsOf(line, mark))) ?? null
    );
  }
}

function anotherHead(text: string): Foreign {
  return {
    found: `another head line among the rows: ${text}`,
    expected: 'rows under one head line, in its units',
    mend: 'split the file there and read its parts one by one',
  };
}

function textOf(row: readonly string[]): string {
  return row
    .map((cell) => cell.trim())
    .join('\n')
    .trimEnd();
}

/** Words alone, one in each cell and none twice, that are no way to say that nothing was measured; a sentence has blanks. */
function areNames(row: readonly string[]): boolean {
  const cells = row.map((cell) => cell.trim()).filter((cell) => cell !== '');
  return (
    cells.length > 1 &&
    row.every((cell) => cell === cell.trim()) &&
    new Set(cells).size === cells.length &&
    cells.every((cell) => oneWord.test(cell) && !saysMissing(cell) && !isValueCell(cell))
  );
}

/** Units, and not the dashes that stand where nothing was measured. */
function saysUnits(row: readonly string[]): boolean {
  return isUnits(row) && row.some((cell) => /[a-zµμ]/i.test(cell));
}
