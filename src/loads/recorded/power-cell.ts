import { inWatts, wattsOf } from './power-unit.ts';

const plain = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;
const withUnit = /^([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*([µμ]W|[a-z]+)$/i;
const withComma = /^[-+]?\d+,\d+$/;

export type PowerCell =
  | { readonly kind: 'number'; readonly value: number }
  /** A number with its own unit behind it [W]. */
  | { readonly kind: 'watts'; readonly value: number }
  /** A number with a comma: decimal, unless every such cell has three digits behind it. */
  | { readonly kind: 'comma'; readonly value: number; readonly three: boolean }
  | { readonly kind: 'empty' | 'text' };

/** What one cell of a power column says. */
export function readPowerCell(cell: string): PowerCell {
  const text = cell.trim();
  if (text === '') return { kind: 'empty' };
  if (plain.test(text)) {
    const value = Number(text);
    return Number.isFinite(value) ? { kind: 'number', value } : { kind: 'text' };
  }
  if (withComma.test(text)) {
    const three = text.length - text.indexOf(',') === 4;
    return { kind: 'comma', value: Number(text.replace(',', '.')), three };
  }
  const parts = withUnit.exec(text);
  const watts = parts === null ? null : wattsOf(parts[2]!);
  if (typeof watts === 'number') return { kind: 'watts', value: inWatts(Number(parts![1]), watts) };
  return { kind: 'text' };
}
