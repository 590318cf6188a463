import { BadInput, type Problem } from '../base/problem.ts';
import { isValueCell } from './cells/value-cell.ts';
import { saysTime } from './columns/column-names.ts';
import {
  areNumbers,
  type Header,
  headerOf,
  type NumberedRow,
  namesColumns,
  saysMeasured,
} from './columns/header.ts';
import { type RowCounter, rowCounterIn } from './columns/row-counter.ts';
import { stampOf, type TableColumns, usedCells } from './columns/table-columns.ts';
import { LostLines } from './lost-lines.ts';
import { CsvRows, cellsOf } from './rows/csv-rows.ts';
import { CutLine } from './rows/cut-line.ts';
import { delimiterNames } from './rows/delimiter.ts';
import { isJsonLine, JsonRows } from './rows/json-rows.ts';
import type { TextRows } from './rows/text-rows.ts';
import { Clock } from './stamps/clock.ts';
import type { DateOrder } from './stamps/date-stamp.ts';
import { timeForm } from './stamps/time-form.ts';

/** Text kept back until its first line ends. */
const longestLead = 1 << 16;

/** No sample takes more characters. */
const longestLine = 1 << 20;
/** Rows looked at before header, columns and stamps are decided. */
const headRows = 200;

/** So many lines below the head, and no row among them: the rest of the file is not looked through. */
const hopelessLines = 100_000;

/** What is made of a table: its columns by its head, then its rows one by one. */
export interface TableUse {
  readonly dates: DateOrder | null;
  /** Options name the columns of a file whose lines do not. */
  readonly byNumber: boolean;
  /** A column that is missing beside that of the stamps, and the ways out where no line names the columns. */
  readonly words: { readonly measured: string; readonly columns: string; readonly nameless: string };
  /** What was stated and what the file says otherwise; refused where nobody takes it. */
  readonly contradicted?: (text: Pick<Problem, 'found' | 'expected' | 'mend'>) => void;
  /** The columns to read; null after it was reported. */
  choose(header: Header, problems: Problem[], remarks: string[]): TableColumns | null;
  /** Rows follow. */
  begin(clock: Clock, width: number): void;
  /** Whether the row was one: it gave a sample, was filtered out, or says that nothing was measured. */
  take(row: readonly string[]): boolean;
  /** A line that is no row stood behind the last one. */
  lose(): void;
}

/** What a table was once it is read. */
export interface ReadTable {
  /** Line of its head. */
  readonly line: number;
  readonly lost: LostLines;
  readonly cut: CutLine;
  /** Lines that are no row at all. */
  readonly unreadable: number;
  /** Comments and lines above the head. */
  readonly about: readonly string[];
  /** The column that counts the rows, where one is called so. */
  readonly counter: RowCounter | null;
}

/**
 * Reads a table of stamped rows that arrives in pieces: delimited text or JSON lines, whatever stands above, between
 * and below its rows. Recordings and measurements are read by it alike. What belongs to no row of this table is
 * refused with its line, or counted; what is unclear is BadInput with the option that settles it.
 */
export class TableReader {
  /** What names and values were taken to mean, in plain sentences. */
  readonly remarks: string[] = [];
  private readonly file: string;
  private readonly use: TableUse;
  private rows: TextRows | null = null;
  private readonly head: NumberedRow[] = [];
  private readonly above: string[] = [];
  private line: number | null = null;
  private lost: LostLines | null = null;
  private cut: CutLine | null = null;
  private counter: RowCounter | null = null;
  /** A line below the head was a row. */
  private hasRows = false;
  /** Lines that were lost among the rows of the head, with how many of those stood above. */
  private readonly lostBehind: { readonly rows: number; readonly line: number }[] = [];
  private readonly remarked: { readonly text: string; readonly line: number }[] = [];
  private lead = '';
  /** Characters since the last line break. */
  private unbroken = 0;

  constructor(file: string, use: TableUse) {
    this.file = file;
    this.use = use;
  }

  push(text: string): void {
    if (text.includes('\0')) {
      this.refuse('zero bytes: not a text file', 'delimited text in UTF-8', 'export the recording as CSV');
    }
    this.refuseEndless(text);
    if (this.rows !== null) {
      this.rows.push(text);
      return;
    }
    this.lead += text;
    // The first line says what parts the cells; a piece may end before it does.
    if (this.lead.length > longestLead || /[\r\n]/.test(this.lead.trimStart())) this.open();
  }

  finish(): ReadTable {
    const rows = this.rows ?? this.open();
    rows.finish();
    if (this.lost === null && this.head.length === 0) {
      this.refuse('an empty file', 'a header and rows below it', 'give a file with rows');
    }
    this.begin();
    return {
      line: this.line!,
      lost: this.lost!,
      cut: this.cut!,
      unreadable: rows.unreadable,
      about: [...rows.comments, ...this.above],
      counter: this.counter,
    };
  }

  /** A text without line breaks would be held whole, and looked through again with every piece. */
  private refuseEndless(text: string): void {
    const end = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));
    this.unbroken = end < 0 ? this.unbroken + text.length : text.length - end - 1;
    if (this.unbroken > longestLine)
      this.refuse(
        'a line of more than 1 MB',
        'a line for each sample',
        'break the lines of the file: it may have been joined to one, or be no table',
      );
  }

  /** Throws BadInput at the line of the head. */
  refuse(found: string, expected: string, mend: string): never {
    const place = this.line === null ? { file: this.file } : { file: this.file, line: this.line };
    throw new BadInput([{ severity: 'error', ...place, found, expected, mend }]);
  }

  /** Chooses what parts the cells, by the first line. */
  private open(): TextRows {
    const lead = this.lead.replace(/^\uFEFF/, '');
    const [first = ''] = lead.trimStart().split(/[\r\n]/, 1);
    const take = (row: readonly string[], line: number): void => this.take(row, line);
    const isJson = isJsonLine(first);
    if (!isJson && (first.startsWith('{') || /^\[\s*([{[]|$)/.test(first))) {
      this.refuse(
        'JSON without one sample per line',
        'an object a line, or delimited text',
        `write one object a line, such as ${this.use.words.columns}, or export the recording as CSV`,
      );
    }
    const lose = (line: number): void => this.lose(line);
    const refuseTwice = (key: string, line: number): never =>
      this.refuseAt(
        line,
        `a key that stands twice in one object: ${key}`,
        'each key once, for one of its values would be lost',
        'give the two values names of their own, or leave one out',
      );
    const meetLater = (key: string, line: number): void => {
      if (saysMeasured(key))
        this.refuseAt(
          line,
          `a key ${key} that none of the first lines has`,
          'what was measured under the same keys from the first lines on',
          'split the file there and read its parts one by one, or give the key from the first line on, null where it has no value',
        );
    };
    const remark = (text: string, line: number): void => this.remark(text, line);
    const rows = isJson
      ? new JsonRows(take, lose, refuseTwice, meetLater)
      : new CsvRows(take, remark, (text, line) => this.refuseSwallowed(text, line));
    if (isJson) this.remarks.push('Each line is JSON.');
    this.rows = rows;
    this.lead = '';
    rows.push(lead);
    return rows;
  }

  private take(row: readonly string[], line: number): void {
    if (this.lost !== null) {
      this.hand(row, line);
      return;
    }
    this.head.push({ row, line });
    if (this.head.length === headRows) this.begin();
  }

  /** Hands a row on to be taken apart; a line that is none of this table is refused, or counted. */
  private hand(row: readonly string[], line: number): void {
    if (line === this.rows!.unended && this.cut!.holds(row, line)) return;
    this.cut!.meet(row);
    this.counter?.meet(row);
    if (this.use.take(row)) {
      this.hasRows = true;
      return;
    }
    const foreign = this.lost!.meet(row, line);
    if (foreign !== null) this.refuseAt(line, foreign.found, foreign.expected, foreign.mend);
    this.refuseHopeless();
  }

  /** Reading on would only count what is no row. */
  private refuseHopeless(): void {
    const { count, first } = this.lost!;
    if (this.hasRows || count < hopelessLines) return;
    this.refuseAt(
      first!.line,
      `${count} lines in which no row can be read, from this one on${first!.text === '' ? '' : `: ${first!.text}`}`,
      'rows with a stamp and a value',
      'check the export, or name the columns that hold them',
    );
  }

  /** A line that is no row stood behind the last one. */
  private lose(line: number): void {
    if (this.lost === null) {
      this.lostBehind.push({ rows: this.head.length, line });
      return;
    }
    this.use.lose();
    this.lost.lose(line, '');
    this.refuseHopeless();
  }

  /** A comment: among the rows it may name other columns than the head does. */
  private remark(text: string, line: number): void {
    if (this.lost === null) {
      this.remarked.push({ text, line });
      return;
    }
    const foreign = line > this.line! ? this.lost.meetComment(text) : null;
    if (foreign !== null) this.refuseAt(line, foreign.found, foreign.expected, foreign.mend);
  }

  /** A quote that closes lines below the one that it opens in: rows between would be one cell. */
  private refuseSwallowed(text: string, line: number): void {
    const within = text.split('\n').slice(1);
    // Behind the quote that closes it its own row goes on.
    const rows = within.slice(0, -1).filter((one) => {
      const values = one.split(/[,;\t|]/).filter((cell) => isValueCell(cell.replaceAll('"', '')));
      return values.length > 1;
    });
    if (rows.length === 0) return;
    this.refuseAt(
      line,
      `a quote that opens here and closes ${within.length} lines below, with rows between`,
      'quotes that close in their line',
      'close the quote, or take it out',
    );
  }

  /** Decides from the first rows what the columns are and how stamps are written, then takes those rows. */
  private begin(): void {
    if (this.lost !== null) return;
    const header = this.header();
    this.line = header.line;
    const problems: Problem[] = [];
    const columns = this.use.choose(header, problems, this.remarks);
    if (columns === null || problems.length > 0) throw new BadInput(problems);
    if (header.rows.length === 0) {
      this.refuse('a header without rows', 'at least two rows', 'record for longer, or check the export');
    }
    const stamps = header.rows.map(({ row }) => stampOf(row, columns.time));
    const refuse = ({ found, expected, mend }: Pick<Problem, 'found' | 'expected' | 'mend'>): never =>
      this.refuse(found, expected, mend);
    const contradicted = this.use.contradicted ?? refuse;
    const form = timeForm(stamps, columns.time, this.use.dates, { refuse, contradicted }, this.remarks);
    this.use.begin(new Clock(form!.unit, form!.order), header.names.length);
    const above = this.head.length - header.rows.length;
    this.above.push(...this.head.slice(0, header.above).map(({ row }) => row.join(' ')));
    this.cut = new CutLine(usedCells(columns));
    const { time, values, others } = columns;
    const read = new Set([time.index, time.dateIndex, ...values, ...others]);
    this.counter = rowCounterIn(header.names, read);
    this.lost = new LostLines(columns, this.rows!.delimiter, header.written);
    for (const { text, line } of this.remarked) this.remark(text, line);
    for (const [k, { row, line }] of header.rows.entries()) {
      this.hand(row, line);
      for (const lost of this.lostBehind) if (lost.rows === above + k + 1) this.lose(lost.line);
    }
    this.head.length = 0;
  }

  private header(): Header {
    const first = this.head[0]!;
    const named = headerOf(this.head);
    if (named !== null) {
      const delimiter = this.rows!.delimiter ?? ',';
      if (delimiter !== ',') this.remarks.push(`Cells are parted by ${delimiterNames[delimiter]}.`);
      if (named.above > 0) this.remarks.push(`${named.above} lines above the header are passed over.`);
      if (named.unitsBelow) this.remarks.push('There is a row of units below the header.');
      return named;
    }
    const names = this.headerInComment(first.row.length);
    if (names !== null) {
      this.remarks.push('Columns are named by a line that starts with #.');
      return { names, line: first.line, rows: this.head, above: 0, unitsBelow: false, written: [names] };
    }
    this.line = first.line;
    const { byNumber, words } = this.use;
    const width = Math.max(...this.head.map(({ row }) => row.length));
    if (width > 1 && byNumber) {
      this.remarks.push('No line names the columns: they are counted from 1.');
      const numbers = Array.from({ length: width }, (_, i) => String(i + 1));
      return { names: numbers, line: first.line, rows: this.head, above: 0, unitsBelow: false, written: [] };
    }
    if (width <= 1 && !areNumbers(first.row)) {
      const name = first.row.join(', ').trim();
      this.refuse(
        `one column, ${name}`,
        `a column of stamps and one of ${words.measured}`,
        saysTime(name)
          ? `export the ${words.measured.split(',')[0]} with the stamps`
          : 'export the stamps with it',
      );
    }
    return this.refuse(
      `values in the first row: ${first.row.slice(0, 6).join(', ')}`,
      'a header that names the columns',
      words.nameless,
    );
  }

  /** Column names in a comment above the rows, as some programs write them; null where there are none. */
  private headerInComment(width: number): readonly string[] | null {
    const delimiter = this.rows!.delimiter ?? ',';
    const lines = this.rows!.commentsAboveRows.map((line) => cellsOf(line, delimiter)).reverse();
    const fitting = lines.filter((cells) => cells.length === width && width > 1 && !areNumbers(cells));
    return fitting.find(namesColumns) ?? fitting[0] ?? null;
  }

  private refuseAt(line: number, found: string, expected: string, mend: string): never {
    this.line = line;
    return this.refuse(found, expected, mend);
  }
}
