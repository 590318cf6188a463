/** Columns that are the lower and the upper bound of one quantity: names that differ in that alone. */
import { wordsOf } from '../../tables/columns/column-names.ts';

const pairs: readonly (readonly [lower: string, upper: string])[] = [
  ['low', 'high'],
  ['lower', 'upper'],
  ['lo', 'hi'],
  ['lowest', 'highest'],
  ['min', 'max'],
  ['minimum', 'maximum'],
  ['smallest', 'largest'],
  ['bottom', 'top'],
  ['valley', 'peak'],
];
const opposite = new Map(pairs.flatMap(([a, b]) => [[a, b] as const, [b, a] as const]));
const percentile = /(?<![a-z0-9])(p|q|pct|percentile|quantile)_?(\d{1,2})(?!\d)/i;
/** More channels that count up are devices. */
const mostPercentiles = 5;

/** The column that bounds the same quantity on the other side; null where none of `all` does. */
export function otherBound(name: string, all: readonly string[]): string | null {
  const own = wordsOf(name);
  const turned = own.flatMap((word, k) => {
    const other = opposite.get(word);
    return other === undefined ? [] : [own.with(k, other).join(' ')];
  });
  const found = all.find((one) => one !== name && turned.includes(wordsOf(one).join(' ')));
  return found ?? otherPercentile(name, all);
}

/** Percentiles bound it where two of them are as far from the middle, 5 and 95. */
function otherPercentile(name: string, all: readonly string[]): string | null {
  const stem = (one: string): string => one.replace(percentile, '#');
  const alike = all.filter((one) => percentile.test(one) && stem(one) === stem(name));
  if (!percentile.test(name) || alike.length > mostPercentiles) return null;
  const shareOf = (one: string): number => Number(percentile.exec(one)![2]);
  return alike.find((one) => one !== name && shareOf(one) + shareOf(name) === 100) ?? null;
}
