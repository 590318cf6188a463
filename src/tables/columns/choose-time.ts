/** Which column holds the stamps, or which two hold date and time of day. */

import { type TimeUnit, timeUnitIn, timeUnitOrStep } from '../stamps/time-unit.ts';
import { saysCurrent, saysPower, saysTime, saysVoltage, wordsOf } from './column-names.ts';
import { asOption, type ColumnReport, columnLabel, findColumn } from './column-report.ts';

export interface TimeColumn {
  readonly index: number;
  /** Column that holds the date where it stands apart from the time of day; −1 where there is none. */
  readonly dateIndex: number;
  readonly name: string;
  readonly unit: TimeUnit | null;
  /** The unit that its name ends with. */
  readonly written: TimeUnit | null;
}

/** `given`: the unit was given by option and is not questioned. */
export type ChosenTime = TimeColumn & { readonly given: boolean };

const dateWords = new Set('date datum fecha'.split(' '));
const clockWords = new Set('time zeit uhrzeit heure hora tempo'.split(' '));
/** What may stand beside such a word without changing it. */
const zoneWords = new Set('utc gmt local of hh mm ss ms yyyy dd'.split(' '));

/** The column of stamps, by option or by name; a date and a time of day in two columns are taken together. */
export function chooseTime(
  names: readonly string[],
  wanted: string | null,
  report: ColumnReport,
  inferred: string[],
): ChosenTime | null {
  if (wanted !== null) return byOption(names, wanted, report);
  const measured = (name: string) => saysPower(name) || saysCurrent(name) || saysVoltage(name);
  const candidates = names.flatMap((name, i) => (saysTime(name) && !measured(name) ? [i] : []));
  const only = (words: ReadonlySet<string>) => candidates.filter((i) => isOnly(names[i]!, words));
  const [dates, times] = [only(dateWords), only(clockWords)];
  if (candidates.length === 2 && dates.length === 1 && times.length === 1) {
    inferred.push(`Time is columns ${names[dates[0]!]} and ${names[times[0]!]} together, by their names.`);
    return together(names, dates[0]!, times[0]!);
  }
  const [index] = candidates;
  if (index !== undefined && candidates.length === 1) {
    const name = names[index]!;
    const unit = timeUnitIn(name)?.unit ?? null;
    inferred.push(`Time is column ${name}${unit === null ? '' : ` in ${unit}`}, by its name.`);
    return { index, dateIndex: -1, name, unit, written: unit, given: false };
  }
  if (index === undefined) {
    report(
      `no time column among ${names.join(', ')}`,
      'a column of stamps',
      'give --time COLUMN, by name or number; of a plain counter with its step, such as --time "COLUMN:10 ms"; of a date and a time of day --time DATE+TIME',
    );
    return null;
  }
  const options = candidates.map((i) => `--time ${asOption(names, i)}`).join(' or ');
  const [first, second] = candidates.map((i) => asOption(names, i));
  const both =
    candidates.length === 2
      ? `; of a date beside a time of day --time ${first}+${second}`.replaceAll('"', '')
      : '';
  report(`${candidates.length} columns that may be the time`, 'one time column', `give ${options}${both}`);
  return null;
}

function isOnly(name: string, words: ReadonlySet<string>): boolean {
  const own = wordsOf(name).filter((word) => !zoneWords.has(word));
  return own.length === 1 && words.has(own[0]!);
}

function together(names: readonly string[], dateIndex: number, index: number): ChosenTime {
  return { index, dateIndex, name: columnLabel(names, index), unit: null, written: null, given: false };
}

/** `COLUMN`, `COLUMN:UNIT`, `COLUMN:STEP` or `DATE+TIME`; a name that holds such a mark is taken as it stands. */
function byOption(names: readonly string[], wanted: string, report: ColumnReport): ChosenTime | null {
  const whole = names.includes(wanted);
  const plus = whole ? -1 : wanted.indexOf('+');
  if (plus > 0) {
    const [date, time] = [wanted.slice(0, plus), wanted.slice(plus + 1)].map((name) =>
      findColumn(names, name, '--time', report),
    );
    return date! < 0 || time! < 0 ? null : together(names, date!, time!);
  }
  const cut = whole ? -1 : wanted.lastIndexOf(':');
  const unit = cut < 0 ? null : timeUnitOrStep(wanted.slice(cut + 1).trim());
  const index = findColumn(names, unit === null ? wanted : wanted.slice(0, cut), '--time', report);
  if (index < 0) return null;
  const written = timeUnitIn(names[index]!)?.unit ?? null;
  return {
    index,
    dateIndex: -1,
    name: columnLabel(names, index),
    unit: unit ?? written,
    written,
    given: unit !== null,
  };
}
