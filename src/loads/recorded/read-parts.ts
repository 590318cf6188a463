/** What the reader of a recording hands on once all rows are taken. */
import type { Cleaned } from '../../samples/clean.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import type { Clock } from '../../tables/stamps/clock.ts';
import type { ReadTable } from '../../tables/table-reader.ts';
import type { ChosenColumns } from './choose-columns.ts';
import type { Overruled } from './overruled.ts';
import type { RowTaker } from './take-rows.ts';

export interface Parts {
  readonly file: string;
  readonly sha256: string;
  readonly table: ReadTable;
  readonly columns: ChosenColumns;
  readonly clock: Clock;
  readonly reading: RecordedReading;
  readonly taker: RowTaker;
  readonly inferred: readonly string[];
  readonly overruled: Overruled;
}

export type Refuse = (found: string, expected: string, mend: string) => never;

export type NamedChannel = Cleaned & { readonly name: string };
