/** What one cell of a column of numbers says, and how commas in it are read. */

const plain = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;
const withUnit = /^([-+]?[\d.,'’\u00a0\u202f]+(?:e[-+]?\d+)?)\s*([µμ]?[a-z]+)$/i;
const oneComma = /^[-+]?\d*,\d+$/;
const thousands = /^[-+]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/;
const groups = /^[-+]?\d{1,3}(?:['’\u00a0\u202f]\d{3})+(?:[.,]\d+)?$/;
const dottedThousands = /^[-+]?\d{1,3}(?:\.\d{3})*,\d+$/;

export type Decimal = 'comma' | 'point' | null;

export type NumberCell =
  | { readonly kind: 'number'; readonly value: number; readonly unit: string | null; readonly comma: Comma }
  | { readonly kind: 'empty' | 'text' };

/** `open`: a comma with three digits behind it and at most three before, decimal or for thousands. */
export type Comma = 'none' | 'decimal' | 'thousands' | 'open';

const empty: NumberCell = { kind: 'empty' };
const text: NumberCell = { kind: 'text' };

/** Reads a cell. Where a comma is open it is read as `decimal` says, or as a decimal comma where that is null. */
export function readNumberCell(cell: string, decimal: Decimal): NumberCell {
  const trimmed = cell.trim();
  if (trimmed === '') return empty;
  if (plain.test(trimmed)) return finite(Number(trimmed), null, 'none');
  const parts = withUnit.exec(trimmed);
  const body = (parts === null ? trimmed : parts[1]!).replaceAll('\u2212', '-');
  const unit = parts === null ? null : parts[2]!;
  if (plain.test(body)) return finite(Number(body), unit, 'none');
  // Apostrophes and thin blanks part thousands and nothing else.
  if (groups.test(body)) return readNumberCell(trimmed.replace(/['’\u00a0\u202f](?=\d{3})/g, ''), decimal);
  const open = thousands.test(body) && oneComma.test(body);
  if (open && decimal === null) return finite(Number(body.replace(',', '.')), unit, 'open');
  if (thousands.test(body) && decimal !== 'comma') {
    return finite(Number(body.replaceAll(',', '')), unit, 'thousands');
  }
  if ((oneComma.test(body) || dottedThousands.test(body)) && decimal !== 'point') {
    return finite(Number(body.replaceAll('.', '').replace(',', '.')), unit, 'decimal');
  }
  return text;
}

function finite(value: number, unit: string | null, comma: Comma): NumberCell {
  return Number.isFinite(value) ? { kind: 'number', value, unit, comma } : text;
}
