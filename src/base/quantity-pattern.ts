/** What texts `readQuantity` takes for a quantity, as a regular expression without flags: for those who check text by pattern alone. */
import { bases, type Dimension, dimensionOf, prefixes, whole } from './quantity.ts';

const digits = '(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?';
const zero = '(0+\\.?0*|\\.0+)([eE][+-]?\\d+)?';

/** Signs that a number may have. */
export type Sign = 'any' | 'not negative' | 'none below, nor 0 with a minus';

/** The whole text of a quantity of the dimension. Bounds beyond its sign are no matter of a pattern. */
export function quantityPattern(dimension: Dimension, sign: Sign = 'any'): string {
  const number = {
    any: `[+\\u2212-]?${digits}`,
    'not negative': `(\\+?${digits}|[\\u2212-]${zero})`,
    'none below, nor 0 with a minus': `\\+?${digits}`,
  }[sign];
  return `^\\s*${number}\\s*${unitPattern(dimension)}\\s*$`;
}

function unitPattern(dimension: Dimension): string {
  if (dimension === 'count' || dimension === 'amount') return '';
  if (dimension === 'ratio') return '%?';
  const [signature] = Object.entries(dimensionOf).find(([, of]) => of === dimension)!;
  const [numerator = '', ...denominators] = signature.split('/');
  const alone = Object.entries(whole).flatMap(([unit, [symbol]]) => (symbol === signature ? [unit] : []));
  // Without a space its 1 would be a digit of the number.
  const above = numerator === '1' ? '\\s1' : basePattern(numerator, 'any');
  const below = ordersOf(denominators).map((order) => belowPattern(order));
  const made = below.length === 0 ? [above] : below.map((rest) => `${above}${rest}`);
  return `(${[...alone, ...(above === null ? [] : made)].join('|')})`;
}

/** `/V/s`, `/(V s)`, `/(V·s)` and `/(V*s)` are the same. */
function belowPattern(symbols: readonly string[]): string {
  const units = symbols.map((symbol) => basePattern(symbol, 'whole of one'));
  const oneByOne = units.map((unit) => `\\s*/\\s*${unit}`).join('');
  return `(${oneByOne}|\\s*/\\s*\\(\\s*${units.join('(\\s*[·*]\\s*|\\s+)')}\\s*\\))`;
}

/** A base unit with or without a prefix; below a fraction line no unit that counts several of its kind, such as Wh. */
function basePattern(symbol: string, factors: 'any' | 'whole of one'): string | null {
  const units = Object.entries(bases).flatMap(([unit, [of, , factor]]) =>
    of === symbol && (factors === 'any' || factor === 1) ? [unit] : [],
  );
  if (units.length === 0) return null;
  const letters = [...Object.keys(prefixes), '\\u03bc'].join('');
  return `[${letters}]?(${units.map((unit) => unit.replace('Ω', '[Ω\\u2126]')).join('|')})`;
}

/** Every order of a few words; none for none. */
function ordersOf(words: readonly string[]): string[][] {
  if (words.length === 0) return [];
  if (words.length === 1) return [[...words]];
  return words.flatMap((first, k) => ordersOf(words.toSpliced(k, 1)).map((rest) => [first, ...rest]));
}
