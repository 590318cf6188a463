/** A key in words: what it may be, what is usual, what holds where nothing is written. */
import { nameOf } from '../base/quantity.ts';
import type { FieldSpec } from '../scenario/text/field.ts';
import type { Key } from './keys.ts';
import { textForm } from './text-forms.ts';
import { rangeOf, writtenAs } from './values.ts';

export interface KeyWords {
  readonly path: string;
  readonly means: string;
  readonly may_be: string;
  readonly usually: string | null;
  /** null: it must be written. */
  readonly where_nothing_is_written: string | null;
}

export function keyWords({ path, field, fallback }: Key): KeyWords {
  return {
    path,
    means: field.kind === 'quantity' ? field.spec.means : field.means,
    may_be: mayBe(path, field),
    usually: usuallyOf(field),
    where_nothing_is_written:
      fallback === undefined ? null : fallback === null ? 'nothing' : valueText(fallback, field),
  };
}

function mayBe(path: string, field: FieldSpec): string {
  switch (field.kind) {
    case 'quantity':
      return `${nameOf(field.spec.dimension)} ${rangeOf(field.spec)}`;
    case 'choice':
      return field.of.join(', ');
    case 'flag':
      return 'yes or no';
    case 'text':
      return textForm(path) ?? 'a text';
    default:
      return field satisfies never;
  }
}

function usuallyOf(field: FieldSpec): string | null {
  if (field.kind !== 'quantity' || field.spec.usual === undefined) return null;
  const usual = field.spec.usual.map((value) => writtenAs(value, field.spec)).join(' to ');
  return field.spec.bus === undefined ? usual : `${usual} on a bus of 50 V`;
}

function valueText(value: number | string | boolean, field: FieldSpec): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' && field.kind === 'quantity'
    ? writtenAs(value, field.spec)
    : String(value);
}
