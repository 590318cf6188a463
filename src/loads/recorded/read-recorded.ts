import type { Problem } from '../../base/problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { isValueCell } from '../../tables/cells/value-cell.ts';
import { quotedName } from '../../tables/columns/column-report.ts';
import type { Header } from '../../tables/columns/header.ts';
import type { TableColumns } from '../../tables/columns/table-columns.ts';
import type { Clock } from '../../tables/stamps/clock.ts';
import { TableReader } from '../../tables/table-reader.ts';
import { assemble } from './assemble.ts';
import { type ChosenColumns, chooseColumns } from './choose-columns.ts';
import { Overruled } from './overruled.ts';
import { plainReading } from './plain-reading.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { recurringName } from './recurring.ts';
import { RowTaker } from './take-rows.ts';

export { plainReading };

const words = {
  measured: 'power, or of current with its voltage',
  columns: '{"time_s": 0, "power_W": 100}',
  nameless:
    'count them from 1, such as --time 1:s --power 2 --unit W, or put a first line such as time_s,power_W',
} as const;

/**
 * Reads a recorded load from delimited text that arrives in pieces (`push`), then judges it (`finish`). Long form
 * (a column names the channel) and wide form (a column for each); powers, or currents with their voltage; stamps
 * as dates or numbers in s, ms, µs, ns. What the file does not settle is BadInput with the option that does. No
 * sample is ever made zero. Rows are not kept: two numbers a sample are.
 */
export class RecordedReader {
  private readonly file: string;
  private readonly reading: RecordedReading;
  private readonly table: TableReader;
  private readonly overruled: Overruled;
  private columns: ChosenColumns | null = null;
  private clock: Clock | null = null;
  private taker: RowTaker | null = null;

  constructor(file: string, reading: RecordedReading) {
    this.file = file;
    this.reading = reading;
    const { dates, time, power, current } = reading;
    this.overruled = new Overruled(reading.overrule);
    this.table = new TableReader(file, {
      dates,
      byNumber: time !== null && power.length + current.length > 0,
      words,
      contradicted: ({ found, expected, mend }) =>
        this.overruled.meet(found, expected, mend, (...text) => this.table.refuse(...text)),
      choose: (header, problems, remarks) => this.choose(header, problems, remarks),
      begin: (clock, width) => {
        this.clock = clock;
        this.taker = new RowTaker(this.columns!, clock, width, reading);
      },
      take: (row) => this.taker!.take(row),
      lose: () => this.taker!.lose(),
    });
  }

  /** Rows taken so far. */
  get rowsCount(): number {
    return this.taker?.rows ?? 0;
  }

  push(text: string): void {
    this.table.push(text);
  }

  /** `sha256` of the file's bytes, kept in the statement. */
  finish(sha256: string): RecordedLoad {
    const table = this.table.finish();
    return assemble({
      file: this.file,
      sha256,
      table,
      columns: this.columns!,
      clock: this.clock!,
      reading: this.reading,
      taker: this.taker!,
      inferred: this.table.remarks,
      overruled: this.overruled,
    });
  }

  private choose(header: Header, problems: Problem[], remarks: string[]): TableColumns | null {
    const { file, reading } = this;
    const columns = chooseColumns(
      header.names,
      reading,
      file,
      header.line,
      problems,
      textsIn(header),
      this.overruled,
    );
    if (columns === null) return null;
    remarks.push(...columns.inferred);
    this.refuseMixed(header, columns);
    this.columns = columns;
    const { time, powers, channel, rows } = columns;
    return {
      time,
      values: powers.map(({ index }) => index),
      others: [
        ...powers.flatMap(({ voltage }) => (voltage !== null && 'index' in voltage ? [voltage.index] : [])),
        ...rows.map(({ index }) => index),
        ...(channel === null ? [] : [channel.index]),
      ],
    };
  }

  /** Rows of several channels read as one would be silently wrong. */
  private refuseMixed({ names, rows }: Header, { channel, channelDenied, unused }: ChosenColumns): void {
    if (channelDenied) return;
    const cells = rows.map(({ row }) => row);
    const found = recurringName(names, unused, cells, channel?.index);
    if (found === null) return;
    const column = quotedName(found.name);
    this.table.refuse(
      channel === null
        ? `a column ${found.name} with ${found.values} values that come again and again`
        : `a column ${found.name} with ${found.values} values that come again and again in rows of one ${channel.name}`,
      'rows of one channel, or the column that names the channel of each row',
      channel === null
        ? `give --channel ${column} or --channel none`
        : `take one of them by --where ${column}=VALUE, or name devices by a column that tells them all apart`,
    );
  }
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
