/** Dates and times of day in Parquet as the text that says the same, by the type of their column. */
import type { SchemaElement } from 'hyparquet';
import { DEFAULT_PARSERS } from 'hyparquet/src/convert.js';

/** Stamps as texts with all their digits: a date of the language keeps milliseconds only. */
export const exactStamps = {
  ...DEFAULT_PARSERS,
  timestampFromMilliseconds: (count: bigint) => stampOf(count, 3),
  timestampFromMicroseconds: (count: bigint) => stampOf(count, 6),
  timestampFromNanoseconds: (count: bigint) => stampOf(count, 9),
};

/** Counts of 10^−`digits` s from 1970 as a date and time; empty where it is none. */
function stampOf(count: bigint, digits: number): string {
  const per = 10n ** BigInt(digits);
  const part = ((BigInt(count) % per) + per) % per;
  const date = new Date(Number((BigInt(count) - part) / per) * 1000);
  if (Number.isNaN(date.getTime())) return '';
  return `${date.toISOString().slice(0, -5)}.${part.toString().padStart(digits, '0')}Z`;
}

/** Digits of a second that a time of day is counted in; null where a column holds none. Its cells would be mere numbers. */
export function timeDigits({ logical_type, converted_type }: SchemaElement): number | null {
  if (logical_type?.type === 'TIME') return { MILLIS: 3, MICROS: 6, NANOS: 9 }[logical_type.unit];
  if (converted_type === 'TIME_MILLIS') return 3;
  return converted_type === 'TIME_MICROS' ? 6 : null;
}

/** Counts of 10^−`digits` s from midnight as a time of day. */
export function timeOf(count: unknown, digits: number): string | undefined {
  if (typeof count !== 'number' && typeof count !== 'bigint') return undefined;
  const per = 10n ** BigInt(digits);
  const whole = BigInt(count);
  const two = (part: bigint): string => part.toString().padStart(2, '0');
  const [s, part] = [whole / per, (whole % per).toString().padStart(digits, '0')];
  return `${two(s / 3600n)}:${two((s / 60n) % 60n)}:${two(s % 60n)}.${part}`;
}
