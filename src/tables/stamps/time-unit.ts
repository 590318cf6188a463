/** Units of time that stamps may be written in. */
import { readQuantity } from '../../base/quantity.ts';

type NamedUnit = 's' | 'ms' | 'us' | 'ns' | 'min' | 'h' | 'd';

/** A unit by its name, or the time between two counts of a counter, `10 ms`, in seconds. */
export type TimeUnit = NamedUnit | number;

const named: Readonly<Record<NamedUnit, number>> = {
  s: 1,
  ms: 1e3,
  us: 1e6,
  ns: 1e9,
  min: 1 / 60,
  h: 1 / 3600,
  d: 1 / 86400,
};

/** Units in one second. */
export function perSecondOf(unit: TimeUnit): number {
  return typeof unit === 'number' ? 1 / unit : named[unit];
}

const spelled: Readonly<Record<string, NamedUnit>> = {
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
  min: 'min',
  minutes: 'min',
  h: 'h',
  hours: 'h',
  d: 'd',
  days: 'd',
};

export function timeUnitOf(text: string): NamedUnit | null {
  return spelled[text.toLowerCase()] ?? null;
}

/** A unit, or a time that one count of a counter lasts, as an option writes it; null where it is neither. */
export function timeUnitOrStep(text: string): TimeUnit | null {
  const unit = timeUnitOf(text);
  if (unit !== null) return unit;
  const step = readQuantity(text, 'time');
  return step.ok && step.value > 0 ? step.value : null;
}

const celled = /^([-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:e[-+]?\d+)?)\s*([a-zµμ]+)$/i;

/** A stamp that carries its own unit, `12.5 s`; null where it is none. */
export function stampWithUnit(cell: string): { readonly value: number; readonly unit: NamedUnit } | null {
  const parts = celled.exec(cell);
  const unit = parts === null ? null : timeUnitOf(parts[2]!);
  return unit === null ? null : { value: Number(parts![1]!.replace(',', '.')), unit };
}

const ending = /(?:^|[\s_.:/([-])([µμ]s|[mun]s|s|[mun]?secs?|(?:milli|micro|nano)?seconds?)[)\]]?$/i;

/** The unit that a column's name ends with, and the name without it. */
export function timeUnitIn(name: string): { readonly unit: NamedUnit; readonly rest: string } | null {
  const found = ending.exec(name);
  const unit = found === null ? null : timeUnitOf(found[1]!);
  return unit === null ? null : { unit, rest: name.slice(0, found!.index) };
}

/** Unit in which a number is a date between 2001 and 2286 counted from 1970; the four ranges do not meet. */
export function epochUnitOf(value: number): 's' | 'ms' | 'us' | 'ns' | null {
  if (value >= 1e9 && value < 1e10) return 's';
  if (value >= 1e12 && value < 1e13) return 'ms';
  if (value >= 1e15 && value < 1e16) return 'us';
  if (value >= 1e18 && value < 1e19) return 'ns';
  return null;
}
