/** Units of time that stamps may be written in. */

export type TimeUnit = 's' | 'ms' | 'us' | 'ns';

/** Units in one second. */
export const perSecond: Readonly<Record<TimeUnit, number>> = { s: 1, ms: 1e3, us: 1e6, ns: 1e9 };

const spelled: Readonly<Record<string, TimeUnit>> = {
  s: 's',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  ms: 'ms',
  msec: 'ms',
  millisecond: 'ms',
  milliseconds: 'ms',
  us: 'us',
  µs: 'us',
  μs: 'us',
  usec: 'us',
  microsecond: 'us',
  microseconds: 'us',
  ns: 'ns',
  nsec: 'ns',
  nanosecond: 'ns',
  nanoseconds: 'ns',
};

export function timeUnitOf(text: string): TimeUnit | null {
  return spelled[text.toLowerCase()] ?? null;
}

const ending = /(?:^|[\s_.:/([-])([µμ]s|[mun]s|s|[mun]?secs?|(?:milli|micro|nano)?seconds?)[)\]]?$/i;

/** The unit that a column's name ends with, and the name without it. */
export function timeUnitIn(name: string): { readonly unit: TimeUnit; readonly rest: string } | null {
  const found = ending.exec(name);
  const unit = found === null ? null : timeUnitOf(found[1]!);
  return unit === null ? null : { unit, rest: name.slice(0, found!.index) };
}

/** Unit in which a number is a date between 2001 and 2286 counted from 1970; the four ranges do not meet. */
export function epochUnitOf(value: number): TimeUnit | null {
  if (value >= 1e9 && value < 1e10) return 's';
  if (value >= 1e12 && value < 1e13) return 'ms';
  if (value >= 1e15 && value < 1e16) return 'us';
  if (value >= 1e18 && value < 1e19) return 'ns';
  return null;
}
