/** Names of channels that are no loads of their own: sums, means and extremes of others, limits, set points, spreads. */
import { wordsOf } from '../../tables/columns/column-names.ts';

const meanings: readonly (readonly [what: string, words: string])[] = [
  ['a sum', 'sum total aggregate combined overall'],
  ['a mean', 'mean average avg'],
  ['an extreme', 'max maximum peak min minimum'],
  ['a limit', 'limit cap budget rated tdp'],
  ['a set point', 'setpoint target requested'],
  ['a spread', 'std stdev stddev sd sigma variance'],
];

interface Derived {
  readonly name: string;
  readonly what: string;
  readonly others: readonly string[];
}

/** A channel whose name says that it is made of others, beside such as do not say the same; null where there is none. */
export function derivedAmong(names: readonly string[]): Derived | null {
  const said = names.map(meaningOf);
  const at = said.findIndex((what) => what !== null && said.some((other) => other !== what));
  if (at < 0) return null;
  const what = said[at]!;
  return { name: names[at]!, what, others: names.filter((_, k) => said[k] !== what) };
}

/** A name that says what no load draws over time, whatever stands beside it; null where there is none. */
export function neverLoad(names: readonly string[]): Omit<Derived, 'others'> | null {
  for (const name of names) {
    const what = meaningOf(name);
    if (what !== null && what !== 'a sum' && what !== 'a mean') return { name, what };
  }
  return null;
}

function meaningOf(name: string): string | null {
  const own = wordsOf(name);
  return meanings.find(([, words]) => words.split(' ').some((word) => own.includes(word)))?.[0] ?? null;
}
