/** What a choice of power columns is made of, and what is chosen. */
import type { RecordedReading } from '../../scenario/scenario.ts';
import { areNumbered } from '../../tables/columns/column-names.ts';
import { type ColumnReport, isRepeated } from '../../tables/columns/column-report.ts';
import type { Overruled } from './overruled.ts';

/** The voltage that a current is multiplied by: a column, in volts of one unit, or one value for all. */
export type VoltageOf =
  | { readonly index: number; readonly name: string; readonly volts: number | null }
  | { readonly value_V: number };

export interface PowerColumn {
  readonly index: number;
  readonly name: string;
  /** Watts (or amperes of a current) of one unit; null where neither name nor option says, so that cells must. */
  readonly factor: number | null;
  /** null: the column is a power. Else a current, and what it is multiplied by. */
  readonly voltage: VoltageOf | null;
}

export interface PowerChoice {
  readonly reading: RecordedReading;
  readonly report: ColumnReport;
  readonly inferred: string[];
  readonly overruled: Overruled;
  /** Columns whose names say something. */
  readonly called: (says: (name: string) => boolean) => number[];
}

/** Columns that are summed, of a sensible recording: beyond this they hold something else. */
const mostColumns = 1024;

/** Columns that are called so; where some of them hold numbers, those with words alone (a state, a unit) are none. */
export function measuredOf(
  names: readonly string[],
  says: (name: string) => boolean,
  texts: ReadonlySet<number>,
): number[] {
  const all = names.flatMap((name, i) => (says(name) ? [i] : []));
  const numbers = all.filter((i) => !texts.has(i));
  return numbers.length > 0 ? numbers : all;
}

/** More columns than any cabinet has devices are not summed because of their names. */
export function reportMany(indices: readonly number[], option: string, report: ColumnReport): boolean {
  if (indices.length <= mostColumns) return false;
  report(
    `${indices.length} columns that may be summed`,
    `at most ${mostColumns} of them`,
    `give ${option} COLUMN for each that is meant, or export fewer`,
  );
  return true;
}

/** Columns that differ in their number only. Where a name stands twice nobody knows what the second one is. */
export function areOfOneKind(names: readonly string[], indices: readonly number[]): boolean {
  return areNumbered(indices.map((i) => names[i]!)) && !indices.some((i) => isRepeated(names, i));
}
