/** Rows of a measured file, taken apart into columns as they come. */
import { counted } from '../base/counted.ts';
import { Samples } from '../samples/samples.ts';
import { StampOrder } from '../samples/stamp-order.ts';
import { readNumberCell } from '../tables/cells/number-cell.ts';
import { MarkCount } from '../tables/cells/open-marks.ts';
import { Sentinels } from '../tables/cells/sentinels.ts';
import { saysMissing } from '../tables/cells/value-cell.ts';
import type { ChosenTime } from '../tables/columns/choose-time.ts';
import { stampOf } from '../tables/columns/table-columns.ts';
import type { Clock } from '../tables/stamps/clock.ts';
import type { ReadTable } from '../tables/table-reader.ts';
import type { MappedColumn } from './map-columns.ts';
import { unitFactor } from './measured-unit.ts';
import type { MeasuredReading } from './measurement.ts';

/** Beyond this a number is no measurement, in whatever unit [V, A or W]. */
const most = 1e12;

export interface TakenColumn extends MappedColumn {
  readonly samples: Samples;
}

export interface RowsOf {
  readonly time: ChosenTime;
  readonly columns: readonly MappedColumn[];
  readonly clock: Clock;
  /** Cells of a whole row. */
  readonly width: number;
  readonly reading: Pick<MeasuredReading, 'decimal' | 'sentinel'>;
}

export class MeasuredRows {
  readonly columns: readonly TakenColumn[];
  readonly marks = new MarkCount();
  readonly order = new StampOrder();
  /** Lowest stamp [s]. */
  earliest_s = Number.POSITIVE_INFINITY;
  /** Rows handed over. */
  count = 0;
  private readonly of: RowsOf;
  private readonly sentinels: Sentinels;
  private leftOut = 0;

  constructor(of: RowsOf) {
    this.of = of;
    this.sentinels = new Sentinels(of.reading.sentinel);
    this.columns = of.columns.map((column) => ({ ...column, samples: new Samples() }));
  }

  /** Whether the row was one: it gave a number, or says that nothing was measured. */
  take(row: readonly string[]): boolean {
    this.count++;
    const { time, clock, width, reading } = this.of;
    const tooWide = row.slice(width).some((cell) => cell.trim() !== '');
    const time_s = tooWide ? Number.NaN : clock.read(stampOf(row, time));
    if (Number.isNaN(time_s)) {
      this.leftOut++;
      this.lose();
      return false;
    }
    this.marks.meetStamp(row[time.index] ?? '');
    this.order.meet(time_s);
    this.earliest_s = Math.min(this.earliest_s, time_s);
    let told = false;
    for (const { index, factor, channel, samples } of this.columns) {
      const cell = row[index];
      const read = readNumberCell(cell ?? '', reading.decimal);
      if (read.kind === 'number' && this.sentinels.holds(read.value)) {
        samples.hole(time_s);
        told = true;
        continue;
      }
      const by =
        read.kind !== 'number' ? null : read.unit === null ? factor : unitFactor(read.unit, channel.unit);
      if (read.kind !== 'number' || by === null || Math.abs(by * read.value) > most) {
        this.leftOut++;
        if (reading.decimal === 'point' && cell !== undefined) this.marks.meetText(cell);
        samples.hole(time_s);
        told ||= cell !== undefined && (cell.trim() === '' || saysMissing(cell));
        continue;
      }
      told = true;
      this.marks.add(read.mark, cell!);
      samples.add(time_s, by * read.value);
    }
    return told;
  }

  /** A line that was no row stood here. */
  lose(): void {
    for (const { samples } of this.columns) samples.hole(this.order.last_s);
  }

  /** What was left out or moved, a sentence each. */
  remarks({ cut, unreadable }: ReadTable): string[] {
    const { leftOut, order, sentinels } = this;
    const left = [
      counted(leftOut + unreadable, 'row or cell without a number', 'rows or cells without a number'),
      counted(sentinels.count, 'value that stands for no reading', 'values that stand for no reading'),
    ].filter((words) => !words.startsWith('0 '));
    return [
      ...left.map((words) => `Left out: ${words}.`),
      ...(cut.found === null
        ? []
        : ['Left out: the last line, which no line break ends and which may be cut.']),
      ...(order.unsorted === 0
        ? []
        : [`Sorted by stamp: ${counted(order.unsorted, 'row')} before the row above.`]),
      ...sentinels.unmet(),
    ];
  }
}
