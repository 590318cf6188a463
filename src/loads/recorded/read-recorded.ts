import { BadInput, type Problem } from '../../base/problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { assemble } from './assemble.ts';
import { type ChosenColumns, chooseColumns } from './choose-columns.ts';
import { Clock } from './clock.ts';
import { saysTime } from './column-names.ts';
import { quotedName } from './column-report.ts';
import { CsvRows, cellsOf } from './csv-rows.ts';
import { CutLine } from './cut-line.ts';
import { delimiterNames } from './delimiter.ts';
import { areNumbers, type Header, headerOf, type NumberedRow, namesColumns } from './header.ts';
import { isJsonLine, JsonRows } from './json-rows.ts';
import { LostLines } from './lost-lines.ts';
import { plainReading } from './plain-reading.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { recurringName } from './recurring.ts';
import { RowTaker } from './take-rows.ts';
import type { TextRows } from './text-rows.ts';
import { timeForm } from './time-form.ts';
import { isValueCell } from './value-cell.ts';

export { plainReading };

/** Text kept back until its first line ends. */
const longestLead = 1 << 16;

/** Rows looked at before header, columns and stamps are decided. */
const headRows = 200;

/**
 * Reads a recorded load from delimited text that arrives in pieces (`push`), then judges it (`finish`). Long form
 * (a column names the channel) and wide form (a column for each); powers, or currents with their voltage; stamps
 * as dates or numbers in s, ms, µs, ns. What the file does not settle is BadInput with the option that does. No
 * sample is ever made zero. Rows are not kept: two numbers a sample are.
 */
export class RecordedReader {
  private readonly file: string;
  private readonly reading: RecordedReading;
  private rows: TextRows | null = null;
  private readonly head: NumberedRow[] = [];
  private readonly inferred: string[] = [];
  private line: number | null = null;
  private columns: ChosenColumns | null = null;
  private clock: Clock | null = null;
  private taker: RowTaker | null = null;
  private lost: LostLines | null = null;
  private cut: CutLine | null = null;
  /** Lines that were lost among the rows of the head, with how many of those stood above. */
  private readonly lostBehind: { readonly rows: number; readonly line: number }[] = [];
  private lead = '';

  constructor(file: string, reading: RecordedReading) {
    this.file = file;
    this.reading = reading;
  }

  /** Rows taken so far. */
  get rowsCount(): number {
    return this.taker?.rows ?? 0;
  }

  push(text: string): void {
    if (text.includes('\0')) {
      this.refuse('zero bytes: not a text file', 'delimited text in UTF-8', 'export the recording as CSV');
    }
    if (this.rows !== null) {
      this.rows.push(text);
      return;
    }
    this.lead += text;
    // The first line says what parts the cells; a piece may end before it does.
    if (/\S[^\r\n]*[\r\n]/.test(this.lead) || this.lead.length > longestLead) this.open();
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
        'write one object a line, such as {"time_s": 0, "power_W": 100}, or export the recording as CSV',
      );
    }
    const lose = (line: number): void => this.lose(line);
    const refuseTwice = (key: string, line: number): never => {
      this.line = line;
      return this.refuse(
        `a key that stands twice in one object: ${key}`,
        'each key once, for one of its values would be lost',
        'give the two values names of their own, or leave one out',
      );
    };
    const rows = isJson ? new JsonRows(take, lose, refuseTwice) : new CsvRows(take);
    if (isJson) this.inferred.push('Each line is JSON.');
    this.rows = rows;
    this.lead = '';
    rows.push(lead);
    return rows;
  }

  /** `sha256` of the file's bytes, kept in the statement. */
  finish(sha256: string): RecordedLoad {
    const rows = this.rows ?? this.open();
    rows.finish();
    if (this.taker === null && this.head.length === 0) {
      this.refuse('an empty file', 'a header and rows below it', 'give a recorded load');
    }
    this.begin();
    const start = rows.comments.map((c) => /^start (\S+)$/.exec(c)?.[1]).find((s) => s !== undefined);
    return assemble({
      file: this.file,
      sha256,
      line: this.line!,
      columns: this.columns!,
      clock: this.clock!,
      reading: this.reading,
      taker: this.taker!,
      unreadable: rows.unreadable,
      lost: this.lost!,
      cut: this.cut!,
      inferred: this.inferred,
      start: start ?? null,
    });
  }

  private take(row: readonly string[], line: number): void {
    if (this.taker !== null) {
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
    if (this.taker!.take(row)) return;
    const foreign = this.lost!.meet(row, line);
    if (foreign === null) return;
    this.line = line;
    this.refuse(foreign.found, foreign.expected, foreign.mend);
  }

  /** A line that is no row stood behind the last one. */
  private lose(line: number): void {
    if (this.taker === null) {
      this.lostBehind.push({ rows: this.head.length, line });
      return;
    }
    this.taker.lose();
    this.lost!.lose(line, '');
  }

  /** Decides from the first rows what the columns are and how stamps are written, then takes those rows. */
  private begin(): void {
    if (this.taker !== null) return;
    const header = this.header();
    this.line = header.line;
    this.columns = this.chosen(header);
    if (header.rows.length === 0) {
      this.refuse('a header without rows', 'at least two rows', 'record for longer, or check the export');
    }
    this.refuseMixed(header, this.columns);
    const { index, dateIndex } = this.columns.time;
    const stamps = header.rows.map(({ row }) => {
      const cell = row[index] ?? '';
      return dateIndex < 0 ? cell : `${(row[dateIndex] ?? '').trim()} ${cell.trim()}`;
    });
    const form = timeForm(
      stamps,
      this.columns,
      this.reading.dates,
      ({ found, expected, mend }) => this.refuse(found, expected, mend),
      this.inferred,
    );
    this.clock = new Clock(form!.unit, form!.order);
    this.taker = new RowTaker(this.columns, this.clock, header.names.length, this.reading);
    const above = this.head.length - header.rows.length;
    this.cut = new CutLine(usedCells(this.columns));
    this.lost = new LostLines(this.columns, this.rows!.delimiter, header.written);
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
      if (delimiter !== ',') this.inferred.push(`Cells are parted by ${delimiterNames[delimiter]}.`);
      if (named.above > 0) this.inferred.push(`${named.above} lines above the header are passed over.`);
      if (named.unitsBelow) this.inferred.push('There is a row of units below the header.');
      return named;
    }
    const names = this.headerInComment(first.row.length);
    if (names !== null) {
      this.inferred.push('Columns are named by a line that starts with #.');
      return { names, line: first.line, rows: this.head, above: 0, unitsBelow: false, written: [names] };
    }
    this.line = first.line;
    const { time, power, current } = this.reading;
    const width = Math.max(...this.head.map(({ row }) => row.length));
    if (width > 1 && time !== null && power.length + current.length > 0) {
      this.inferred.push('No line names the columns: they are counted from 1.');
      const numbers = Array.from({ length: width }, (_, i) => String(i + 1));
      return { names: numbers, line: first.line, rows: this.head, above: 0, unitsBelow: false, written: [] };
    }
    if (width <= 1 && !areNumbers(first.row)) {
      const name = first.row.join(', ').trim();
      this.refuse(
        `one column, ${name}`,
        'a column of stamps and one of power, or of current with its voltage',
        saysTime(name) ? 'export the power with the stamps' : 'export the stamps with it',
      );
    }
    return this.refuse(
      `values in the first row: ${first.row.slice(0, 6).join(', ')}`,
      'a header that names the columns',
      'count them from 1, such as --time 1:s --power 2 --unit W, or put a first line such as time_s,power_W',
    );
  }

  /** Rows of several channels read as one would be silently wrong. */
  private refuseMixed({ names, rows }: Header, { channel, channelDenied, unused }: ChosenColumns): void {
    if (channel !== null || channelDenied) return;
    const found = recurringName(
      names,
      unused,
      rows.map(({ row }) => row),
    );
    if (found === null) return;
    this.refuse(
      `a column ${found.name} with ${found.values} values that come again and again`,
      'rows of one channel, or the column that names the channel of each row',
      `give --channel ${quotedName(found.name)} or --channel none`,
    );
  }

  private chosen(header: Header): ChosenColumns {
    const problems: Problem[] = [];
    const columns = chooseColumns(
      header.names,
      this.reading,
      this.file,
      header.line,
      problems,
      textsIn(header),
    );
    if (columns === null || problems.length > 0) throw new BadInput(problems);
    this.inferred.push(...columns.inferred);
    return columns;
  }

  /** Column names in a comment above the rows, as some programs write them; null where there are none. */
  private headerInComment(width: number): readonly string[] | null {
    const delimiter = this.rows!.delimiter ?? ',';
    const lines = this.rows!.commentsAboveRows.map((line) => cellsOf(line, delimiter)).reverse();
    const fitting = lines.filter((cells) => cells.length === width && width > 1 && !areNumbers(cells));
    return fitting.find(namesColumns) ?? fitting[0] ?? null;
  }

  private refuse(found: string, expected: string, mend: string): never {
    const place = this.line === null ? { file: this.file } : { file: this.file, line: this.line };
    throw new BadInput([{ severity: 'error', ...place, found, expected, mend }]);
  }
}

/** How many cells of a row, from its first on, hold all that is read of it. */
function usedCells({ time, powers, channel, rows }: ChosenColumns): number {
  const voltages = powers.map(({ voltage }) => (voltage !== null && 'index' in voltage ? voltage.index : -1));
  const places = [time, ...powers, ...rows, ...(channel === null ? [] : [channel])].map(({ index }) => index);
  return 1 + Math.max(time.dateIndex, ...voltages, ...places);
}

/** Columns in which the rows at the head hold words and no number. */
function textsIn({ names, rows }: Header): ReadonlySet<number> {
  const texts = names.flatMap((_, i) => {
    const cells = rows.flatMap(({ row }) => ((row[i] ?? '').trim() === '' ? [] : [row[i]!]));
    return cells.length > 0 && !cells.some(isValueCell) ? [i] : [];
  });
  return new Set(texts);
}

/** Reads a recording that is at hand as one text. */
export function readRecorded(
  text: string,
  source: { readonly file: string; readonly sha256: string },
  reading: RecordedReading = plainReading,
): RecordedLoad {
  const reader = new RecordedReader(source.file, reading);
  reader.push(text);
  return reader.finish(source.sha256);
}
