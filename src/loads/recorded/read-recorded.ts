import { BadInput, type Problem } from '../../problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { assemble } from './assemble.ts';
import { type Columns, chooseColumns } from './choose-columns.ts';
import { Clock } from './clock.ts';
import { CsvRows } from './csv-rows.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { RowTaker } from './take-rows.ts';
import { timeForm } from './time-form.ts';

/** Rows looked at before it is decided how stamps are written. */
const headRows = 200;

/** Reads with nothing given: the file itself must say what it holds. */
export const plainReading: RecordedReading = {
  time: null,
  power: [],
  channel: null,
  unit: null,
  at: 'device',
  side: 'dc',
  copies: null,
  coincidence: 'together',
  smoothed: false,
};

/**
 * Reads a recorded load from delimited text that arrives in pieces (`push`), then judges it (`finish`). Long form
 * (a column names the channel) and wide form (a column for each); stamps as dates or numbers in s, ms, µs, ns.
 * What the file does not settle is BadInput with the option that does. No sample is ever made zero.
 */
export class RecordedReader {
  private readonly file: string;
  private readonly reading: RecordedReading;
  private readonly rows: CsvRows;
  private readonly head: (readonly string[])[] = [];
  private readonly inferred: string[] = [];
  private header: readonly string[] | null = null;
  private columns: Columns | null = null;
  private clock: Clock | null = null;
  private taker: RowTaker | null = null;

  constructor(file: string, reading: RecordedReading) {
    this.file = file;
    this.reading = reading;
    this.rows = new CsvRows((row) => this.take(row));
  }

  push(text: string): void {
    if (text.includes('\0')) {
      this.refuse('bytes of zero: not a text file', 'delimited text in UTF-8', 'export the recording as CSV');
    }
    this.rows.push(this.header === null ? text.replace(/^\uFEFF/, '') : text);
  }

  /** `sha256` of the file's bytes, kept in the statement. */
  finish(sha256: string): RecordedLoad {
    this.rows.finish();
    if (this.header === null)
      this.refuse('an empty file', 'a header and rows below it', 'give a recorded load');
    this.begin();
    const start = this.rows.comments.map((c) => /^start (\S+)$/.exec(c)?.[1]).find((s) => s !== undefined);
    return assemble({
      file: this.file,
      sha256,
      line: this.rows.firstLine,
      columns: this.columns!,
      clock: this.clock!,
      taker: this.taker!,
      inferred: this.inferred,
      start: start ?? null,
    });
  }

  private take(row: readonly string[]): void {
    if (this.header === null) {
      this.readHeader(row);
      return;
    }
    if (this.taker !== null) {
      this.taker.take(row);
      return;
    }
    this.head.push(row);
    if (this.head.length === headRows) this.begin();
  }

  private readHeader(row: readonly string[]): void {
    this.header = areNumbers(row) ? this.headerInComment(row.length) : row;
    if (this.header === null) {
      this.header = row;
      this.refuse(
        `numbers in the first row: ${row.slice(0, 6).join(', ')}`,
        'a header that names the columns',
        'put a first line such as time_s,power_W',
      );
    }
    const problems: Problem[] = [];
    this.columns = chooseColumns(this.header, this.reading, this.file, this.rows.firstLine, problems);
    if (problems.length > 0) throw new BadInput(problems);
    if (this.columns !== null) this.inferred.push(...this.columns.inferred);
    if (this.header !== row) {
      this.inferred.push('Columns are named by a line that starts with #.');
      this.take(row);
    }
  }

  /** Column names in a comment above the rows, as some programs write them; null where there are none. */
  private headerInComment(width: number): readonly string[] | null {
    const delimiter = this.rows.delimiter ?? ',';
    const lines = this.rows.comments.map((line) => line.split(delimiter));
    return lines.find((cells) => cells.length === width && width > 1 && !areNumbers(cells)) ?? null;
  }

  /** Decides from the first rows how stamps are written, then takes those rows. */
  private begin(): void {
    if (this.taker !== null || this.columns === null || this.header === null) return;
    if (this.head.length === 0) {
      this.refuse('a header without rows', 'at least two rows', 'record for longer, or check the export');
    }
    const stamps = this.head.map((row) => row[this.columns!.time.index] ?? '');
    const form = timeForm(
      stamps,
      this.columns,
      ({ found, expected, mend }) => this.refuse(found, expected, mend),
      this.inferred,
    );
    this.clock = new Clock(form!);
    this.taker = new RowTaker(this.columns, this.clock, this.header.length);
    for (const row of this.head) this.taker.take(row);
    this.head.length = 0;
  }

  private refuse(found: string, expected: string, mend: string): never {
    const place = this.header === null ? { file: this.file } : { file: this.file, line: this.rows.firstLine };
    throw new BadInput([{ severity: 'error', ...place, found, expected, mend }]);
  }
}

function areNumbers(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() !== '' && Number.isFinite(Number(cell)));
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
