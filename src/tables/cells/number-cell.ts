/** What one cell of a column of numbers says, and how commas and points in it are read. */

const plain = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;
const withUnit = /^([-+]?[\d.,'’\u00a0\u202f]+(?:e[-+]?\d+)?)\s*([µμ]?[a-z]+)$/i;
const oneComma = /^[-+]?\d*,\d+$/;
const thousands = /^[-+]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/;
const pointedThousands = /^[-+]?[1-9]\d{0,2}(?:\.\d{3})+$/;
const groups = /^[-+]?\d{1,3}(?:['’\u00a0\u202f]\d{3})+(?:[.,]\d+)?$/;
const dottedThousands = /^[-+]?\d{1,3}(?:\.\d{3})*,\d+$/;

export type Decimal = 'comma' | 'point' | null;

export type NumberCell =
  | { readonly kind: 'number'; readonly value: number; readonly unit: string | null; readonly mark: Mark }
  | { readonly kind: 'empty' | 'text' };

/**
 * What its commas and points do. `open`: a comma with three digits behind it and at most three before, decimal or for
 * thousands; `dotted`: a point that stands so, read as decimal; `point`: one that can only be decimal.
 */
export type Mark = 'none' | 'decimal' | 'thousands' | 'open' | 'point' | 'dotted' | 'pointed-thousands';

const empty: NumberCell = { kind: 'empty' };
const text: NumberCell = { kind: 'text' };

/**
 * Reads a cell. Where a comma or a point is open it is read as `decimal` says, or as a decimal one where that is null;
 * under a decimal comma points part thousands where they can.
 */
export function readNumberCell(cell: string, decimal: Decimal): NumberCell {
  const trimmed = cell.trim();
  if (trimmed === '') return empty;
  if (plain.test(trimmed)) return plainNumber(trimmed, null, decimal);
  const parts = withUnit.exec(trimmed);
  const body = (parts === null ? trimmed : parts[1]!).replaceAll('\u2212', '-');
  const unit = parts === null ? null : parts[2]!;
  if (plain.test(body)) return plainNumber(body, unit, decimal);
  if (decimal === 'comma' && pointedThousands.test(body)) return pointed(body, unit);
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

/** A number without commas. */
function plainNumber(body: string, unit: string | null, decimal: Decimal): NumberCell {
  if (!body.includes('.')) return finite(Number(body), unit, 'none');
  if (decimal === 'point' || !pointedThousands.test(body)) return finite(Number(body), unit, 'point');
  return decimal === 'comma' ? pointed(body, unit) : finite(Number(body), unit, 'dotted');
}

function pointed(body: string, unit: string | null): NumberCell {
  return finite(Number(body.replaceAll('.', '')), unit, 'pointed-thousands');
}

function finite(value: number, unit: string | null, mark: Mark): NumberCell {
  return Number.isFinite(value) ? { kind: 'number', value, unit, mark } : text;
}
