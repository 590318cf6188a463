/** Rows that seem to be missing, by all that a file says of them: its head, its count, the steps of its stamps. */

import type { ReadTable } from '../tables/table-reader.ts';
import type { Gap } from './gaps.ts';
import { type MixedSteps, mixedSteps } from './mixed-steps.ts';
import { type RowsHeld, unkeptStatements } from './stated-rows.ts';

/** Steps of several in more of the time than this are no detail. */
const notable_ratio = 0.01;

interface StampedChannel {
  readonly name: string;
  readonly time_s: Float64Array;
  readonly gaps: readonly Gap[];
}

/** What is worth a warning, and what a remark will do for. */
export interface MissingRows {
  readonly warnings: readonly string[];
  readonly remarks: readonly string[];
}

export function missingRows(
  { about, counter }: ReadTable,
  held: RowsHeld,
  channels: readonly StampedChannel[],
): MissingRows {
  const mixed = channels
    .map(({ name, time_s, gaps }) => mixedSteps(name, time_s, gaps))
    .filter((one): one is MixedSteps => one !== null);
  const said = (isNotable: boolean): string[] =>
    mixed.filter(({ ratio }) => ratio > notable_ratio === isNotable).map(({ sentence }) => sentence);
  return {
    warnings: [...unkeptStatements(about, held), ...(counter?.warning() ?? []), ...said(true)],
    remarks: said(false),
  };
}
