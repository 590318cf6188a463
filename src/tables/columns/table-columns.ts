import type { ChosenTime } from './choose-time.ts';

/** The columns that are read of a table. */
export interface TableColumns {
  readonly time: ChosenTime;
  /** Places of the cells with what was measured, and of others that are looked at. */
  readonly values: readonly number[];
  readonly others: readonly number[];
}

/** The stamp of a row, of a date and a time of day together where they stand apart. */
export function stampOf(row: readonly string[], { index, dateIndex }: ChosenTime): string {
  const cell = row[index] ?? '';
  return dateIndex < 0 ? cell : `${(row[dateIndex] ?? '').trim()} ${cell.trim()}`;
}

/** How many cells of a row, from its first on, hold all that is read of it. */
export function usedCells({ time, values, others }: TableColumns): number {
  return 1 + Math.max(time.index, time.dateIndex, ...values, ...others);
}
