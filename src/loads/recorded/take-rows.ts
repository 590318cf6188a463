import type { Columns } from './choose-columns.ts';
import type { Clock } from './clock.ts';
import { readPowerCell } from './power-cell.ts';
import { inWatts } from './power-unit.ts';
import { Samples } from './samples.ts';

/** Reasons for which a sample is left out: a gap, never a zero. */
export interface Dropped {
  emptyPower: number;
  textPower: number;
  badStamp: number;
  wrongWidth: number;
}

/** Takes rows apart into channels, as they come. Powers stay in the file's unit until `watts` is known. */
export class RowTaker {
  readonly channels = new Map<string, Samples>();
  readonly dropped: Dropped = { emptyPower: 0, textPower: 0, badStamp: 0, wrongWidth: 0 };
  rows = 0;
  unsorted = 0;
  /** Cells with a unit of their own, plain numbers in columns that have none, and cells with a comma. */
  cellsWithUnit = 0;
  cellsWithoutUnit = 0;
  cellsWithComma = 0;
  /** Every comma had three digits behind it, so that it may part thousands. */
  commasUnclear = true;
  private readonly columns: Columns;
  private readonly clock: Clock;
  private readonly width: number;
  private last_s = Number.NEGATIVE_INFINITY;

  constructor(columns: Columns, clock: Clock, width: number) {
    this.columns = columns;
    this.clock = clock;
    this.width = width;
  }

  take(row: readonly string[]): void {
    this.rows++;
    const { time, powers, channel } = this.columns;
    if (row.length > this.width && row.slice(this.width).some((cell) => cell.trim() !== '')) {
      this.dropped.wrongWidth++;
      return;
    }
    const time_s = this.clock.read(row[time.index] ?? '');
    if (Number.isNaN(time_s)) {
      this.dropped.badStamp++;
      return;
    }
    if (time_s < this.last_s) this.unsorted++;
    this.last_s = time_s;
    for (const power of powers) {
      const watts = this.powerOf(row[power.index] ?? '', power.watts);
      if (Number.isNaN(watts)) continue;
      const name = channel === null ? power.name : (row[channel.index] ?? '').trim();
      let samples = this.channels.get(name);
      if (samples === undefined) {
        samples = new Samples();
        this.channels.set(name, samples);
      }
      samples.add(time_s, watts);
    }
  }

  /** Power [W], or NaN where the cell holds none. */
  private powerOf(text: string, watts: number | null): number {
    const cell = readPowerCell(text);
    switch (cell.kind) {
      case 'number':
        if (watts === null) this.cellsWithoutUnit++;
        return inWatts(cell.value, watts ?? 1);
      case 'watts':
        this.cellsWithUnit++;
        return cell.value;
      case 'comma':
        this.cellsWithComma++;
        if (watts === null) this.cellsWithoutUnit++;
        if (!cell.three) this.commasUnclear = false;
        return inWatts(cell.value, watts ?? 1);
      case 'empty':
        this.dropped.emptyPower++;
        return Number.NaN;
      case 'text':
        this.dropped.textPower++;
        return Number.NaN;
      default:
        throw new RangeError(`unknown cell ${cell satisfies never}`);
    }
  }
}
