import { digits } from '../../base/digits.ts';
import { formatPercent } from '../../base/quantity.ts';
import type { Cleaned } from '../../samples/clean.ts';
import type { Gap } from '../../samples/gaps.ts';
import type { ReadTable } from '../../tables/table-reader.ts';
import type { Edit } from './statement.ts';
import type { RowTaker } from './take-rows.ts';

/**
 * What was done to the rows, in order. What never was a number has no energy of its own: there the energy stays
 * that of the straight line over the missing sample. Energy before a gap is bridged leaves the gap out.
 */
export function editsOf(
  taker: RowTaker,
  { unreadable, cut }: Pick<ReadTable, 'unreadable' | 'cut'>,
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
  /** `what`: for one, for many. */
  const add = (count: number, [one, many]: readonly [string, string], before: number, after: number) => {
    if (count > 0)
      edits.push({ what: count === 1 ? one : many, count, energy_before_J: before, energy_after_J: after });
  };
  const { dropped } = taker;
  const cutLine = 'last line left out, which no line break ends and which may be cut';
  add(cut.found === null ? 0 : 1, [cutLine, cutLine], sorted_J, sorted_J);
  add(unreadable, ['line that is no row left out', 'lines that are no row left out'], sorted_J, sorted_J);
  add(
    dropped.badStamp,
    ['row without a readable stamp left out', 'rows without a readable stamp left out'],
    sorted_J,
    sorted_J,
  );
  add(
    dropped.wrongWidth,
    ['row with more cells than the header left out', 'rows with more cells than the header left out'],
    sorted_J,
    sorted_J,
  );
  add(dropped.emptyPower, ['empty power left out', 'empty powers left out'], sorted_J, sorted_J);
  add(
    dropped.textPower,
    ['power that is no number left out', 'powers that are no number left out'],
    sorted_J,
    sorted_J,
  );
  add(
    taker.sentinels.count,
    ['value that stands for no reading left out', 'values that stand for no reading left out'],
    sorted_J,
    sorted_J,
  );
  add(
    dropped.absurdPower,
    ['power beyond 1e12 W left out', 'powers beyond 1e12 W left out'],
    sorted_J,
    sorted_J,
  );
  add(
    taker.order.unsorted,
    ['row before the row above sorted by stamp', 'rows before the row above sorted by stamp'],
    sorted_J,
    sorted_J,
  );
  add(
    sum(({ below }) => below.values.length),
    ['negative power left out', 'negative powers left out'],
    sorted_J,
    positive_J,
  );
  add(
    sum((c) => c.duplicates),
    ['sample of a stamp seen before merged to the mean', 'samples of one stamp merged to their mean'],
    positive_J,
    merged_J,
  );
  add(
    gaps.length,
    ['gap bridged by a straight line', 'gaps bridged by a straight line'],
    merged_J - gap_J,
    merged_J,
  );
  if (cleaned.length > 1) {
    const ends = join.cut_s > 0 ? `, ends covered by some only (up to ${digits(join.cut_s)} s) left out` : '';
    add(
      cleaned.length,
      [`channels summed${ends}`, `channels summed at every stamp of any${ends}`],
      join.channels_J,
      join.after_J,
    );
  }
  return edits;
}

/** An edit that moves the energy by more than this share is no detail. */
const notable_ratio = 0.01;

/** Edits that move the energy noticeably, a sentence each: what they put in was never recorded. */
export function warningsOf(edits: readonly Edit[]): string[] {
  return edits.flatMap(({ what, count, energy_before_J, energy_after_J }) => {
    const ratio = Math.abs(energy_after_J - energy_before_J) / Math.abs(energy_after_J);
    if (!(ratio > notable_ratio)) return [];
    const moved = energy_after_J > energy_before_J ? 'adds' : 'takes away';
    return [
      `${count} ${what}: that ${moved} ${formatPercent(ratio, 2)} of the energy, which was not recorded.`,
    ];
  });
}
