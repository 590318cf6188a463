import type { Cleaned } from './clean.ts';
import type { Gap } from './gaps.ts';
import type { Edit } from './statement.ts';
import type { RowTaker } from './take-rows.ts';

/**
 * What was done to the rows, in order. What never was a number has no energy of its own: there the energy stays
 * that of the straight line over the missing sample. Energy before a gap is bridged leaves the gap out.
 */
export function editsOf(
  taker: RowTaker,
  cleaned: readonly Cleaned[],
  gaps: readonly Gap[],
  gap_J: number,
  join: { readonly channels_J: number; readonly cut_s: number; readonly after_J: number },
): Edit[] {
  const sum = (of: (c: Cleaned) => number) => cleaned.reduce((total, c) => total + of(c), 0);
  const sorted_J = sum((c) => c.sorted_J);
  const positive_J = sum((c) => c.positive_J);
  const merged_J = sum((c) => c.merged_J);
  const edits: Edit[] = [];
  const add = (count: number, what: string, before: number, after: number) => {
    if (count > 0) edits.push({ what, count, energy_before_J: before, energy_after_J: after });
  };
  const { dropped } = taker;
  add(dropped.badStamp, 'rows without a readable stamp left out', sorted_J, sorted_J);
  add(dropped.wrongWidth, 'rows with more cells than the header left out', sorted_J, sorted_J);
  add(dropped.emptyPower, 'empty powers left out', sorted_J, sorted_J);
  add(dropped.textPower, 'powers that are no number left out', sorted_J, sorted_J);
  add(taker.unsorted, 'rows before the row above sorted by stamp', sorted_J, sorted_J);
  add(
    sum((c) => c.negatives),
    'negative powers left out',
    sorted_J,
    positive_J,
  );
  add(
    sum((c) => c.duplicates),
    'samples of one stamp merged to their mean',
    positive_J,
    merged_J,
  );
  add(gaps.length, 'gaps bridged by a straight line', merged_J - gap_J, merged_J);
  if (cleaned.length > 1) {
    const ends =
      join.cut_s > 0 ? `, ends covered by some only (up to ${join.cut_s.toPrecision(3)} s) left out` : '';
    add(cleaned.length, `channels summed at every stamp of any${ends}`, join.channels_J, join.after_J);
  }
  return edits;
}
