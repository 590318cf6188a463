import { counted } from '../base/counted.ts';
import { BadInput, type Problem } from '../base/problem.ts';
import type { Channel } from '../channels/channel.ts';
import { lostIn } from '../samples/clean.ts';
import { type Gap, gapsOf } from '../samples/gaps.ts';
import { type MissingRows, missingRows } from '../samples/missing-rows.ts';
import { onePerStamp } from '../samples/one-per-stamp.ts';
import { scattered } from '../samples/scattered.ts';
import { medianInterval_s } from '../samples/series.ts';
import { reordered, sortedOrder } from '../samples/sorted-order.ts';
import { runsAgain, runsOf, summerTimeLeft } from '../samples/stamp-order.ts';
import { sumRow } from '../samples/sum-row.ts';
import { chooseTime } from '../tables/columns/choose-time.ts';
import type { ColumnReport } from '../tables/columns/column-report.ts';
import type { Header } from '../tables/columns/header.ts';
import type { TableColumns } from '../tables/columns/table-columns.ts';
import type { Clock } from '../tables/stamps/clock.ts';
import { type ReadTable, TableReader } from '../tables/table-reader.ts';
import { columnSigns, signWarning } from './column-signs.ts';
import { mapColumns } from './map-columns.ts';
import { MeasuredRows, type TakenColumn } from './measured-rows.ts';
import type { MeasuredColumn, MeasuredReading, Measurement } from './measurement.ts';
import { asHappened, sensorOf } from './sensor/of-column.ts';

const words = {
  measured: 'what was measured',
  columns: '{"time_s": 0, "A.S1.voltage_V": 50}',
  nameless:
    'count them from 1, such as --time 1:s --map 2=A.S1.voltage_V, or put a first line such as time_s,A.S1.voltage_V',
} as const;

/**
 * Reads a measured file (wide form: a column for each channel) that arrives in pieces, as recordings are read. Columns
 * are channels by their names or by the reading's map; cells that hold no number are left out, stamps are sorted
 * unless they run again over what was measured. What is unclear is BadInput with the option that settles it.
 */
export class MeasuredReader {
  private readonly file: string;
  private readonly reading: MeasuredReading;
  private readonly channels: readonly Channel[];
  private readonly table: TableReader;
  private columns: readonly Omit<TakenColumn, 'samples'>[] = [];
  private time: TableColumns['time'] | null = null;
  private clock: Clock | null = null;
  private rows: MeasuredRows | null = null;

  /** `channels`: those of the model, which columns may stand for. */
  constructor(file: string, reading: MeasuredReading, channels: readonly Channel[]) {
    this.file = file;
    this.reading = reading;
    this.channels = channels;
    this.table = new TableReader(file, {
      dates: reading.dates,
      byNumber: reading.time !== null && reading.map.size > 0,
      words,
      choose: (header, problems, remarks) => this.choose(header, problems, remarks),
      begin: (clock, width) => {
        this.clock = clock;
        this.rows = new MeasuredRows({ time: this.time!, columns: this.columns, clock, width, reading });
      },
      take: (row) => this.rows!.take(row),
      lose: () => this.rows!.lose(),
    });
  }

  push(text: string): void {
    saidAsMeasured(() => this.table.push(text));
  }

  finish(sha256: string): Measurement {
    return saidAsMeasured(() => this.measurement(this.table.finish(), sha256));
  }

  private measurement(table: ReadTable, sha256: string): Measurement {
    const rows = this.rows!;
    this.refuseUnclear(rows);
    const taken = rows.columns.map((one) => this.columnOf(one, rows.earliest_s));
    const columns = taken.map(({ column }) => column);
    this.refuseSensorsWithoutColumn(columns);
    const thin = columns.filter(({ time_s }) => time_s.length < 2).map(({ column }) => column);
    if (thin.length > 0) {
      this.table.refuse(
        `fewer than two numbers in ${thin.join(', ')}, or all of them of one stamp`,
        'columns of numbers over time',
        'leave these columns out of the map, or check the export',
      );
    }
    const missing = missingOf(table, rows.count, taken);
    const merged = taken.reduce((sum, one) => sum + one.merged, 0);
    const remarks = [
      ...this.table.remarks,
      ...rows.remarks(table),
      ...(merged === 0 ? [] : [`Merged to their mean: ${counted(merged, 'sample')} of a stamp seen before.`]),
      ...missing.remarks,
    ];
    const warnings = [
      ...table.lost.warning(rows.count + table.unreadable),
      ...missing.warnings,
      ...columnSigns(columns).map(signWarning),
      ...columns.flatMap(({ column, values }) => sumRow(column, values, (value) => value.toPrecision(4))),
    ];
    const inRange = columns.map((column) =>
      column.sensor === undefined ? column : asHappened({ ...column, sensor: column.sensor }, remarks),
    );
    return { file: this.file, sha256, columns: inRange, remarks, warnings };
  }

  /** The column by rising stamps, with its sensor. */
  private columnOf({ name, channel, samples }: TakenColumn, earliest_s: number): Placed {
    const { time_s: stamps_s, power_W, holes_s } = samples.take();
    const runs = runsOf(stamps_s);
    const order = sortedOrder(stamps_s);
    const sorted_s = reordered(stamps_s, order);
    const sorted = reordered(power_W, order);
    const { count } = onePerStamp(sorted_s, sorted, sorted_s.length);
    const [time_s, values] = [sorted_s.slice(0, count), sorted.slice(0, count)];
    const again = time_s.length < 2 ? null : runsAgain(name, runs, medianInterval_s(time_s));
    if (again !== null)
      this.table.refuse(
        again.found,
        again.expected,
        'split the file there, or sort its rows by their stamps where they are merely out of order',
      );
    const gaps = time_s.length < 2 ? [] : gapsOf({ time_s, power_W: values }, lostIn(time_s, holes_s));
    const wrong = time_s.length < 2 ? null : scattered(name, time_s, gaps);
    if (wrong !== null) this.table.refuse(wrong.found, wrong.expected, wrong.mend);
    const column = {
      column: name,
      channel: channel.id,
      time_s: time_s.map((t) => t - earliest_s),
      values,
    };
    const sensor = sensorOf(column, channel.unit, this.reading.sensors, ({ found, expected, mend }) =>
      this.table.refuse(found, expected, mend),
    );
    return {
      column: sensor === null ? column : { ...column, sensor },
      gaps: gaps.map(({ from_s, to_s }) => ({ from_s: from_s - earliest_s, to_s: to_s - earliest_s })),
      merged: sorted_s.length - count,
    };
  }

  private choose(header: Header, problems: Problem[], remarks: string[]): TableColumns | null {
    const { file, reading } = this;
    const report: ColumnReport = (found, expected, mend) =>
      problems.push({ severity: 'error', file, line: header.line, found, expected, mend });
    const names = header.names.map((name) => name.trim());
    const time = chooseTime(names, reading.time, report, remarks);
    this.columns = mapColumns(names, time, reading.map, this.channels, report, remarks);
    this.time = time;
    return time === null ? null : { time, values: this.columns.map(({ index }) => index), others: [] };
  }

  /** Commas or points that may mean two things, and a clock that was put back. */
  private refuseUnclear({ marks, order }: MeasuredRows): void {
    const where = this.columns.map(({ name }) => name).join(', ');
    const { decimal } = this.reading;
    const unclear = marks.against(decimal, where) ?? marks.unclear(where) ?? marks.idle(decimal, where);
    if (unclear !== null)
      this.table.refuse(unclear.found, 'commas and points that mean one thing', unclear.mend);
    const left = summerTimeLeft(order, this.clock!.zoneless);
    if (left !== null)
      this.table.refuse(left.found, left.expected, 'export the stamps in UTC, or split the file there');
  }

  private refuseSensorsWithoutColumn(columns: readonly MeasuredColumn[]): void {
    const known = [...new Set(columns.flatMap(({ column, channel }) => [column, channel]))];
    const twice = columns.find(
      ({ column, channel }) => column !== channel && this.hasSensor(column, channel),
    );
    if (twice !== undefined)
      this.table.refuse(
        `a sensor of ${twice.column} and one of ${twice.channel}, which it stands for`,
        'one sensor for a column',
        'leave one of them out',
      );
    const [stranger] = [...this.reading.sensors.keys()].filter((name) => !known.includes(name));
    if (stranger !== undefined)
      this.table.refuse(
        `a sensor of ${stranger}, which is not compared`,
        `a sensor of one of ${known.join(', ')}`,
        'give --sensor COLUMN=KIND with one of these',
      );
  }

  private hasSensor(column: string, channel: string): boolean {
    return this.reading.sensors.has(column) && this.reading.sensors.has(channel);
  }
}

/** A column by rising stamps, where nothing was read in it, and how many samples had a stamp seen before. */
interface Placed {
  readonly column: MeasuredColumn;
  readonly gaps: readonly Gap[];
  readonly merged: number;
}

/** Rows that seem to be missing: all columns have the stamps of the rows, so the one with the most of them tells. */
function missingOf(table: ReadTable, rows: number, taken: readonly Placed[]): MissingRows {
  const size = ({ column }: Placed): number => column.time_s.length;
  const { column: fullest, gaps } = taken.reduce((a, b) => (size(b) > size(a) ? b : a));
  const { column: name, time_s } = fullest;
  const duration_s = time_s[time_s.length - 1]! - time_s[0]!;
  const inGaps_s = gaps.reduce((sum, gap) => sum + gap.to_s - gap.from_s, 0);
  const interval_s = (duration_s - inGaps_s) / Math.max(1, time_s.length - 1 - gaps.length);
  return missingRows(table, { rows, interval_s, duration_s }, [{ name, time_s, gaps }]);
}

/** Problems with the file name the options of a measurement: its stamps are not those of a recorded load. */
function saidAsMeasured<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    const own = (text: string): string => text.replace(/--(?=(?:time|dates|decimal)\b)/g, '--measured-');
    throw new BadInput(
      error.problems.map((problem) => ({ ...problem, found: own(problem.found), mend: own(problem.mend) })),
    );
  }
}
