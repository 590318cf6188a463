import { Samples } from '../../samples/samples.ts';
import { StampOrder } from '../../samples/stamp-order.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { type Decimal, readNumberCell } from '../../tables/cells/number-cell.ts';
import { MarkCount } from '../../tables/cells/open-marks.ts';
import { amperesOf, inWatts, voltsOf, wattsOf } from '../../tables/cells/power-unit.ts';
import { Sentinels } from '../../tables/cells/sentinels.ts';
import { saysMissing } from '../../tables/cells/value-cell.ts';
import { stampOf } from '../../tables/columns/table-columns.ts';
import type { Clock } from '../../tables/stamps/clock.ts';
import { AgainstCurrent } from './against-current.ts';
import type { ChosenColumns } from './choose-columns.ts';
import { DeniedChannels } from './denied-channels.ts';
import { Factors } from './factors.ts';
import { LabelledRows } from './labelled-rows.ts';
import { ReadingNotes } from './of-the-readings.ts';
import type { PowerColumn, VoltageOf } from './power-choice.ts';

/** Highest power of any load [W], a thousand gigawatts: beyond it a number is no measurement. */
const mostPower_W = 1e12;

/** Reasons for which a sample is left out: a gap, never a zero. */
export interface Dropped {
  emptyPower: number;
  textPower: number;
  absurdPower: number;
  badStamp: number;
  wrongWidth: number;
}

/** How the cells of a row are to be read. */
type CellReading = Pick<RecordedReading, 'decimal' | 'sentinel'>;

/** Takes rows apart into channels, as they come. */
export class RowTaker {
  readonly channels = new Map<string, Samples>();
  readonly dropped: Dropped = {
    emptyPower: 0,
    textPower: 0,
    absurdPower: 0,
    badStamp: 0,
    wrongWidth: 0,
  };
  rows = 0;
  /** Rows of fewer cells than the header. */
  short = 0;
  /** Rows that a filter of the reading left out. */
  elsewhere = 0;
  readonly order = new StampOrder();
  /** Cells with a unit of their own, plain numbers in columns that have none. */
  cellsWithUnit = 0;
  cellsWithoutUnit = 0;
  /** The first cell with another unit than its column has. */
  otherUnit: string | null = null;
  readonly marks = new MarkCount();
  /** Columns that may name channels although that was denied. */
  readonly denied: readonly DeniedChannels[];
  /** Columns that may say of what quantity a row is. */
  readonly labelled: readonly LabelledRows[];
  /** Columns that say something of the readings. */
  readonly notes: readonly ReadingNotes[];
  /** Where a current and a voltage stand beside the powers. */
  readonly against: AgainstCurrent | null;
  /** Where a power is a product of two columns, both of them. */
  readonly factors = new Factors();
  private readonly columns: ChosenColumns;
  private readonly clock: Clock;
  private readonly width: number;
  private readonly decimal: Decimal;
  readonly sentinels: Sentinels;
  /** Lowest stamp of a sample [s]. */
  earliest_s = Number.POSITIVE_INFINITY;

  constructor(columns: ChosenColumns, clock: Clock, width: number, reading: CellReading) {
    this.columns = columns;
    this.clock = clock;
    this.width = width;
    this.decimal = reading.decimal;
    this.denied = columns.denied.map(({ index, name }) => new DeniedChannels(index, name));
    const [{ voltage, factor } = { voltage: null, factor: null }] = columns.powers;
    const read = { as: voltage === null ? 'power' : 'current', factor } as const;
    this.labelled = columns.labels.map((column) => new LabelledRows(column, read, column.isChosen));
    this.notes = columns.notes.map((column) => new ReadingNotes(column));
    this.against = columns.beside === null ? null : new AgainstCurrent(columns.beside, reading.decimal);
    this.sentinels = new Sentinels(reading.sentinel);
  }

  /** Whether the row was one: it gave a sample, was filtered out, or says that nothing was measured. */
  take(row: readonly string[]): boolean {
    this.rows++;
    if (row.length < this.width) this.short++;
    const { time, powers } = this.columns;
    if (row.length > this.width && row.slice(this.width).some((cell) => cell.trim() !== '')) {
      this.dropped.wrongWidth++;
      this.leaveHoles(row, this.order.last_s);
      return false;
    }
    for (const { index, value } of this.columns.rows) {
      if ((row[index] ?? '').trim() === value) continue;
      this.elsewhere++;
      return index < row.length;
    }
    const time_s = this.clock.read(stampOf(row, time));
    if (Number.isNaN(time_s)) {
      this.dropped.badStamp++;
      this.leaveHoles(row, this.order.last_s);
      return false;
    }
    this.marks.meetStamp(row[time.index] ?? '');
    this.order.meet(time_s);
    for (const denied of this.denied) denied.meet(row, time_s);
    let told = false;
    let all_W = 0;
    for (const power of powers) {
      const watts = this.powerOf(row, power, time_s);
      all_W += watts;
      if (Math.abs(watts) <= mostPower_W) {
        this.channel(this.nameOf(row, power)).add(time_s, watts);
        told = true;
        if (time_s < this.earliest_s) this.earliest_s = time_s;
      } else {
        if (!Number.isNaN(watts)) this.dropped.absurdPower++;
        this.leaveHole(row, power, time_s);
        told ||= this.saysNothing(row[power.index]);
      }
    }
    this.against?.meet(row, all_W);
    if (told) {
      for (const label of this.labelled) label.meet(row);
      for (const note of this.notes) note.meet(row);
    }
    return told;
  }

  /** Whether a cell is there and says that nothing was measured. */
  private saysNothing(cell: string | undefined): boolean {
    if (cell === undefined) return false;
    if (cell.trim() === '' || saysMissing(cell)) return true;
    const read = readNumberCell(cell, this.decimal);
    return read.kind === 'number' && this.sentinels.states(read.value);
  }

  /** A line that was no row stood here: of which channel it told nobody knows. */
  lose(): void {
    for (const samples of this.channels.values()) samples.hole(this.order.last_s);
  }

  /** A row that is left out leaves a hole in the channels that it would have told of; in all where it does not say. */
  private leaveHoles(row: readonly string[], time_s: number): void {
    for (const power of this.columns.powers) this.leaveHole(row, power, time_s);
  }

  private leaveHole(row: readonly string[], power: PowerColumn, time_s: number): void {
    const samples = this.channels.get(this.nameOf(row, power));
    if (samples !== undefined) samples.hole(time_s);
    else if (this.columns.channel !== null) this.lose();
  }

  private nameOf(row: readonly string[], power: PowerColumn): string {
    const { channel } = this.columns;
    return channel === null ? power.name : (row[channel.index] ?? '').trim();
  }

  private channel(name: string): Samples {
    let samples = this.channels.get(name);
    if (samples === undefined) {
      samples = new Samples();
      this.channels.set(name, samples);
    }
    return samples;
  }

  /** Power [W], or NaN where the cells hold none. */
  private powerOf(row: readonly string[], power: PowerColumn, time_s: number): number {
    const { index, factor, voltage, name } = power;
    const cell = row[index] ?? '';
    if (voltage === null) return this.value(cell, factor, wattsIn);
    const current_A = this.value(cell, factor, amperesOf);
    const voltage_V = this.voltageOf(row, voltage);
    if ('index' in voltage) {
      const device = this.columns.channel === null ? '' : `${this.nameOf(row, power)} `;
      this.factors.meet(device + name, 'current', time_s, current_A);
      this.factors.meet(device + voltage.name, 'voltage', time_s, voltage_V);
    }
    return current_A * voltage_V;
  }

  private voltageOf(row: readonly string[], voltage: VoltageOf): number {
    if ('value_V' in voltage) return voltage.value_V;
    return this.value(row[voltage.index] ?? '', voltage.volts, voltsOf);
  }

  /** A number in SI, by the cell's own unit or the column's; NaN where there is none. */
  private value(text: string, factor: number | null, siOf: (unit: string) => number | null): number {
    const cell = readNumberCell(text, this.decimal);
    switch (cell.kind) {
      case 'empty':
        this.dropped.emptyPower++;
        return Number.NaN;
      case 'text':
        if (this.decimal === 'point' && text.includes(',')) this.marks.meetText(text);
        this.dropped.textPower++;
        return Number.NaN;
      case 'number': {
        if (this.sentinels.holds(cell.value)) {
          return Number.NaN;
        }
        this.marks.add(cell.mark, text);
        if (cell.unit === null) {
          if (factor === null) this.cellsWithoutUnit++;
          return inWatts(cell.value, factor ?? 1);
        }
        const si = siOf(cell.unit);
        if (si === null) {
          this.dropped.textPower++;
          return Number.NaN;
        }
        this.cellsWithUnit++;
        if (factor !== null && si !== factor && this.otherUnit === null) this.otherUnit = text.trim();
        return inWatts(cell.value, si);
      }
      default:
        throw new RangeError(`unknown cell ${cell satisfies never}`);
    }
  }
}

/** `mw` can mean two things: it is no unit of a cell. */
function wattsIn(unit: string): number | null {
  const watts = wattsOf(unit);
  return typeof watts === 'number' ? watts : null;
}
