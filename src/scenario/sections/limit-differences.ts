/**
 * Where the limits of a scenario are not those that the project ships, or not those that its own limits file states:
 * a limit that was changed keeps neither its number nor its reason in silence.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { LimitRow } from '../limit-row.ts';

const columns = ['normal', 'carry', 'degraded'] as const;
export type LimitColumn = (typeof columns)[number];

/** What a difference means for a verdict: `other` where looser and tighter have no meaning. */
export type LimitEffect = 'looser' | 'tighter' | 'removed' | 'added' | 'other';

export interface LimitDifference {
  readonly limit: string;
  /** Column, or what else of the row differs; `row` where all of it is missing or new. */
  readonly what: LimitColumn | 'stay' | 'needs' | 'band' | 'side' | 'quantity' | 'unit' | 'row';
  readonly from: string;
  readonly to: string;
  /** Who says so: an option, or the file. */
  readonly by: string;
  readonly effect: LimitEffect;
}

/** Differences of `rows` from `reference`, in the order of the reference; `by`: who wrote a row's value. */
export function limitDifferences(
  reference: readonly LimitRow[],
  rows: readonly LimitRow[],
  by: (limit: string, what: LimitDifference['what']) => string,
): LimitDifference[] {
  const now = new Map(rows.map((row) => [row.id, row]));
  const known = new Set(reference.map(({ id }) => id));
  return [
    ...reference.flatMap((row) => {
      const other = now.get(row.id);
      return other === undefined ? [whole(row.id, 'removed', by)] : ofRow(row, other, by);
    }),
    ...rows.filter(({ id }) => !known.has(id)).map(({ id }) => whole(id, 'added', by)),
  ];
}

function whole(
  limit: string,
  effect: 'removed' | 'added',
  by: (limit: string, what: 'row') => string,
): LimitDifference {
  const [from, to] = effect === 'removed' ? ['a limit', 'no row'] : ['no row', 'a limit'];
  return { limit, what: 'row', from, to, by: by(limit, 'row'), effect };
}

function ofRow(
  a: LimitRow,
  b: LimitRow,
  by: (limit: string, what: LimitDifference['what']) => string,
): LimitDifference[] {
  const found: LimitDifference[] = [];
  const note = <T>(
    what: LimitDifference['what'],
    was: T,
    is: T,
    text: (value: T) => string,
    effect: LimitEffect,
  ): void => {
    // Words are made of what differs alone, which is nearly nothing.
    if (Object.is(was, is)) return;
    const [from, to] = [text(was), text(is)];
    if (from !== to) found.push({ limit: a.id, what, from, to, by: by(a.id, what), effect });
  };
  const comparable = a.unit === b.unit && a.side === b.side && a.quantity === b.quantity;
  note('quantity', a.quantity, b.quantity, String, 'other');
  note('unit', a.unit, b.unit, String, 'other');
  note('side', a.side, b.side, String, 'other');
  for (const column of columns) {
    const effect = comparable ? effectOf(a[column], b[column], a.side) : removedOr(a[column], b[column]);
    // A number alone says nothing where the unit differs.
    const text = ({ value, unit }: { readonly value: number | null; readonly unit: string }): string =>
      limitText(value, unit);
    if (a[column] !== b[column] || a.unit !== b.unit)
      note(column, { value: a[column], unit: a.unit }, { value: b[column], unit: b.unit }, text, effect);
  }
  note('stay', a.stay_s, b.stay_s, secondsText, (b.stay_s ?? 0) > (a.stay_s ?? 0) ? 'looser' : 'tighter');
  // What a limit needs of a recording decides whether it is judged at all.
  note(
    'needs',
    a.needs_Hz,
    b.needs_Hz,
    hertzText,
    (b.needs_Hz ?? 0) < (a.needs_Hz ?? 0) ? 'looser' : 'tighter',
  );
  note('band', a, b, bandText, 'other');
  return found;
}

function effectOf(from: number | null, to: number | null, side: LimitRow['side']): LimitEffect {
  if (from === null || to === null) return removedOr(from, to);
  return (side === 'upper') === to > from ? 'looser' : 'tighter';
}

function removedOr(from: number | null, to: number | null): LimitEffect {
  if (to === null) return 'removed';
  return from === null ? 'added' : 'other';
}

/** A number of a limits file as people write it. */
export function limitText(value: number | null, unit: string): string {
  if (value === null) return 'none';
  if (unit === 'ratio') return formatPercent(value, 6);
  if (unit === 's') return formatQuantity(value, 'time', 6);
  return unit === 'count' ? String(value) : `${Number(value.toPrecision(6))} ${unit}`;
}

function secondsText(value: number | null): string {
  return value === null ? 'none' : formatQuantity(value, 'time', 6);
}

function hertzText(value: number | null): string {
  return value === null ? 'nothing' : formatQuantity(value, 'frequency', 6);
}

function bandText({ band_Hz }: LimitRow): string {
  return band_Hz === null ? 'none' : `${hertzText(band_Hz[0])} to ${hertzText(band_Hz[1])}`;
}
