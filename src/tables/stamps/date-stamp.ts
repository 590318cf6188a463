/** Dates and times as people and loggers write them. */

export type DateOrder = 'day-first' | 'month-first';

/** Seconds from 1970, whole and broken part; a time of day alone counts from midnight. */
export interface DateStamp {
  readonly whole_s: number;
  readonly part_s: number;
  readonly zoned: boolean;
  readonly dayOnly: boolean;
}

const time = String.raw`(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,:](\d+))?)?\s*([AaPp][Mm])?\s*(Z|z|UTC|GMT|[+-]\d\d:?\d\d)?`;
const yearFirst = new RegExp(String.raw`^(\d{4})([-/.])(\d{1,2})[-/.](\d{1,2})[T ,]\s*${time}$`);
const yearLast = new RegExp(String.raw`^(\d{1,2})([-/.])(\d{1,2})[-/.](\d{4})[T ,]\s*${time}$`);
const named = new RegExp(
  String.raw`^(?:(\d{1,2})[- .]+([A-Za-z]{3,9})|([A-Za-z]{3,9})\.? +(\d{1,2}))[-, .]+(\d{4})[T ,]\s*${time}$`,
);
const timeOfDay = new RegExp(`^${time}$`);

const months = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');

/** Whether a cell is a date and time, or a time of day, in any order of day and month. */
export function isDateStamp(cell: string): boolean {
  const text = cell.trim();
  return [yearFirst, yearLast, named, timeOfDay].some((form) => form.test(text));
}

/** Reads a stamp; null where it is none, or names no real day. `order` settles dates such as 01/02/2030. */
export function readDateStamp(cell: string, order: DateOrder | null): DateStamp | null {
  const text = cell.trim();
  let found = yearFirst.exec(text);
  if (found !== null) return stamp(+found[1]!, +found[3]!, +found[4]!, found.slice(5));
  found = yearLast.exec(text);
  if (found !== null) {
    const dayFirst = order === null ? found[2] === '.' || +found[1]! > 12 : order === 'day-first';
    const [day, month] = dayFirst ? [+found[1]!, +found[3]!] : [+found[3]!, +found[1]!];
    return stamp(+found[4]!, month, day, found.slice(5));
  }
  found = timeOfDay.exec(text);
  if (found !== null) return stamp(1970, 1, 1, found.slice(1), true);
  found = named.exec(text);
  if (found === null) return null;
  const month = months.indexOf((found[2] ?? found[3]!).slice(0, 3).toLowerCase()) + 1;
  return stamp(+found[5]!, month, +(found[1] ?? found[4]!), found.slice(6));
}

function stamp(
  year: number,
  month: number,
  day: number,
  [hours, minutes, seconds, fraction, half, zone]: readonly (string | undefined)[],
  dayOnly = false,
): DateStamp | null {
  let hour = +hours!;
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (half.toLowerCase() === 'pm' ? 12 : 0);
  }
  const second = seconds === undefined ? 0 : +seconds;
  const ms = Date.UTC(year, month - 1, day, hour, +minutes!, second);
  const date = new Date(ms);
  if (month < 1 || month > 12 || hour > 23 || +minutes! > 59 || second > 60) return null;
  if (date.getUTCMonth() !== month - 1 && second !== 60) return null;
  return {
    whole_s: ms / 1000 - zoneShift_s(zone),
    part_s: fraction === undefined ? 0 : Number(`0.${fraction}`),
    zoned: zone !== undefined,
    dayOnly,
  };
}

function zoneShift_s(zone: string | undefined): number {
  if (zone === undefined || /^(Z|UTC|GMT)$/i.test(zone)) return 0;
  const sign = zone.startsWith('-') ? -1 : 1;
  const digits = zone.replace(/\D/g, '');
  return sign * (Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60);
}

/**
 * Order of day and month that a set of stamps shows: by a dot (day first, the custom where dots are used), by a
 * number above 12; `open` where both orders would do, null where no stamp depends on it.
 */
export function dateOrderOf(cells: readonly string[]): DateOrder | 'open' | null {
  let open = false;
  for (const cell of cells) {
    const found = yearLast.exec(cell.trim());
    if (found === null) continue;
    if (found[2] === '.' || +found[1]! > 12) return 'day-first';
    if (+found[3]! > 12) return 'month-first';
    open = true;
  }
  return open ? 'open' : null;
}
