import { counted } from '../base/counted.ts';
import { BadInput, type Problem } from '../base/problem.ts';
import type { Channel } from '../channels/channel.ts';
import { chooseTime, type TimeColumn } from '../loads/recorded/choose-columns.ts';
import { Clock } from '../loads/recorded/clock.ts';
import type { ColumnReport } from '../loads/recorded/column-report.ts';
import { CsvRows } from '../loads/recorded/csv-rows.ts';
import { headerOf, type NumberedRow } from '../loads/recorded/header.ts';
import { readNumberCell } from '../loads/recorded/number-cell.ts';
import { MarkCount } from '../loads/recorded/open-marks.ts';
import { Samples } from '../loads/recorded/samples.ts';
import { Sentinels } from '../loads/recorded/sentinels.ts';
import { reordered, sortedOrder } from '../loads/recorded/sorted-order.ts';
import { timeForm } from '../loads/recorded/time-form.ts';
import { type MappedColumn, mapColumns } from './map-columns.ts';
import type { MeasuredColumn, MeasuredReading, Measurement } from './measurement.ts';
import { asHappened, sensorOf } from './sensor/of-column.ts';
import type { SensorFault } from './sensor/read-sensor.ts';

const headRows = 200;

/**
 * Reads a measured file (wide form: a column for each channel) that arrives in pieces. Columns are channels by
 * their names or by the reading's map; cells that hold no number are left out, stamps are sorted. What is unclear
 * is BadInput with the option that settles it.
 */
export class MeasuredReader {
  private readonly file: string;
  private readonly reading: MeasuredReading;
  private readonly channels: readonly Channel[];
  private readonly rows: CsvRows;
  private readonly head: NumberedRow[] = [];
  private readonly remarks: string[] = [];
  private line = 1;
  private time: TimeColumn | null = null;
  private clock: Clock | null = null;
  private mapped: readonly (MappedColumn & { readonly samples: Samples })[] = [];
  private leftOut = 0;
  private readonly sentinels: Sentinels;
  private readonly marks = new MarkCount();
  private earliest_s = Number.POSITIVE_INFINITY;

  /** `channels`: those of the model, which columns may stand for. */
  constructor(file: string, reading: MeasuredReading, channels: readonly Channel[]) {
    this.file = file;
    this.reading = reading;
    this.sentinels = new Sentinels(reading.sentinel);
    this.channels = channels;
    this.rows = new CsvRows((row, line) => this.take(row, line));
  }

  push(text: string): void {
    this.rows.push(text.replace(/^\uFEFF/, ''));
  }

  finish(sha256: string): Measurement {
    this.rows.finish();
    this.begin();
    this.refuseCommas();
    const columns = this.mapped.map(({ name, channel, samples }): MeasuredColumn => {
      const { time_s, power_W } = samples.take();
      const order = sortedOrder(time_s);
      const column = {
        column: name,
        channel: channel.id,
        time_s: reordered(time_s, order).map((t) => t - this.earliest_s),
        values: reordered(power_W, order),
      };
      const sensor = sensorOf(column, channel.unit, this.reading.sensors, (fault) => this.refuseAs(fault));
      return sensor === null ? column : asHappened({ ...column, sensor }, this.remarks);
    });
    this.refuseSensorsWithoutColumn(columns);
    const thin = columns.filter(({ time_s }) => time_s.length < 2).map(({ column }) => column);
    if (thin.length > 0) {
      this.refuse(
        `fewer than two numbers in ${thin.join(', ')}`,
        'columns of numbers',
        'leave these columns out of the map, or check the export',
      );
    }
    if (this.leftOut > 0)
      this.leave(counted(this.leftOut, 'row or cell without a number', 'rows or cells without a number'));
    const { count } = this.sentinels;
    if (count > 0)
      this.leave(counted(count, 'value that stands for no reading', 'values that stand for no reading'));
    this.remarks.push(...this.sentinels.unmet());
    return { file: this.file, sha256, columns, remarks: this.remarks };
  }

  private leave(what: string): void {
    this.remarks.push(`Left out: ${what}.`);
  }

  private take(row: readonly string[], line: number): void {
    if (this.clock === null) {
      this.head.push({ row, line });
      if (this.head.length === headRows) this.begin();
      return;
    }
    this.keep(row);
  }

  private keep(row: readonly string[]): void {
    const time = this.time!;
    const cell = row[time.index] ?? '';
    const stamp = time.dateIndex < 0 ? cell : `${(row[time.dateIndex] ?? '').trim()} ${cell.trim()}`;
    const time_s = this.clock!.read(stamp);
    if (Number.isNaN(time_s)) {
      this.leftOut++;
      return;
    }
    this.marks.meetStamp(cell);
    this.earliest_s = Math.min(this.earliest_s, time_s);
    for (const { index, factor, samples } of this.mapped) {
      const read = readNumberCell(row[index] ?? '', this.reading.decimal);
      if (read.kind !== 'number') this.leftOut++;
      else if (!this.sentinels.holds(read.value)) {
        this.marks.add(read.mark, row[index] ?? '');
        samples.add(time_s, factor * read.value);
      }
    }
  }

  private begin(): void {
    if (this.clock !== null) return;
    const header = this.head.length === 0 ? null : headerOf(this.head);
    if (header === null) {
      this.refuse(
        this.head.length === 0 ? 'an empty file' : 'no header that names the columns',
        'a header and rows below it',
        'put a first line such as time_s,A.S1.voltage_V',
      );
    }
    this.line = header.line;
    const problems: Problem[] = [];
    const report: ColumnReport = (found, expected, mend) =>
      problems.push({
        severity: 'error',
        file: this.file,
        line: header.line,
        found,
        expected,
        mend,
      });
    const names = header.names.map((name) => name.trim());
    const time = chooseTime(names, this.reading.time, report, this.remarks);
    const mapped = mapColumns(names, time, this.reading.map, this.channels, report, this.remarks);
    if (time === null || problems.length > 0) throw new BadInput(problems);
    const stamps = header.rows.map(({ row }) => row[time.index] ?? '');
    const form = timeForm(
      stamps,
      { time, timeUnitGiven: time.given },
      this.reading.dates,
      ({ found, expected, mend }) => this.refuse(found, expected, mend),
      this.remarks,
    );
    this.time = time;
    this.clock = new Clock(form!.unit, form!.order);
    this.mapped = mapped.map((column) => ({
      ...column,
      samples: new Samples(),
    }));
    for (const { row } of header.rows) this.keep(row);
    this.head.length = 0;
  }

  private refuseCommas(): void {
    const marks = this.marks.unclear(this.mapped.map(({ name }) => name).join(', '));
    if (marks === null) return;
    this.refuse(
      marks.found,
      'commas and points that mean one thing',
      marks.mend.replaceAll('--decimal', '--measured-decimal'),
    );
  }

  private refuseSensorsWithoutColumn(columns: readonly MeasuredColumn[]): void {
    const known = [...new Set(columns.flatMap(({ column, channel }) => [column, channel]))];
    const twice = columns.find(
      ({ column, channel }) => column !== channel && this.hasSensor(column, channel),
    );
    if (twice !== undefined)
      this.refuse(
        `a sensor of ${twice.column} and one of ${twice.channel}, which it stands for`,
        'one sensor for a column',
        'leave one of them out',
      );
    const [stranger] = [...this.reading.sensors.keys()].filter((name) => !known.includes(name));
    if (stranger !== undefined)
      this.refuse(
        `a sensor of ${stranger}, which is not compared`,
        `a sensor of one of ${known.join(', ')}`,
        'give --sensor COLUMN=KIND with one of these',
      );
  }

  private hasSensor(column: string, channel: string): boolean {
    return this.reading.sensors.has(column) && this.reading.sensors.has(channel);
  }

  private refuseAs({ found, expected, mend }: SensorFault): never {
    this.refuse(found, expected, mend);
  }

  private refuse(found: string, expected: string, mend: string): never {
    throw new BadInput([
      {
        severity: 'error',
        file: this.file,
        line: this.line,
        found,
        expected,
        mend,
      },
    ]);
  }
}
