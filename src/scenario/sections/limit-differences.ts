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
  const note = (what: LimitDifference['what'], from: string, to: string, effect: LimitEffect): void => {
    if (from !== to) found.push({ limit: a.id, what, from, to, by: by(a.id, what), effect });
  };
  const comparable = a.unit === b.unit && a.side === b.side && a.quantity === b.quantity;
  note('quantity', a.quantity, b.quantity, 'other');
  note('unit', a.unit, b.unit, 'other');
  note('side', a.side, b.side, 'other');
  for (const column of columns) {
    const effect = comparable ? effectOf(a[column], b[column], a.side) : removedOr(a[column], b[column]);
    note(column, limitText(a[column], a.unit), limitText(b[column], b.unit), effect);
  }
  note(
    'stay',
    secondsText(a.stay_s),
    secondsText(b.stay_s),
    (b.stay_s ?? 0) > (a.stay_s ?? 0) ? 'looser' : 'tighter',
  );
  // What a limit needs of a recording decides whether it is judged at all.
  note(
    'needs',
    hertzText(a.needs_Hz),
    hertzText(b.needs_Hz),
    (b.needs_Hz ?? 0) < (a.needs_Hz ?? 0) ? 'looser' : 'tighter',
  );
  note('band', bandText(a), bandText(b), 'other');
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
