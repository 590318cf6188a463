import type { Problem } from '../../problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { choosePowers, type PowerColumn } from './choose-powers.ts';
import { chooseRows, type RowFilter } from './choose-rows.ts';
import { saysChannel, saysCurrent, saysPower, saysTime, saysVoltage, wordsOf } from './column-names.ts';
import { type ColumnReport, findColumn, quotedName } from './column-report.ts';
import { type TimeUnit, timeUnitIn, timeUnitOrStep } from './time-unit.ts';

export interface TimeColumn {
  readonly index: number;
  /** Column that holds the date where it stands apart from the time of day; −1 where there is none. */
  readonly dateIndex: number;
  readonly name: string;
  readonly unit: TimeUnit | null;
}

export interface Columns {
  readonly time: TimeColumn;
  /** The time's unit was given by option: it is not questioned. */
  readonly timeUnitGiven: boolean;
  readonly powers: readonly PowerColumn[];
  readonly rows: readonly RowFilter[];
  readonly channel: { readonly index: number; readonly name: string } | null;
  /** The option said that no column names channels. */
  readonly channelDenied: boolean;
  readonly unused: readonly string[];
  /** What was taken from names alone, in plain sentences. */
  readonly inferred: readonly string[];
}

/** Chooses columns by option, then by name. What is unclear goes to `problems` with the option that settles it. */
export function chooseColumns(
  header: readonly string[],
  reading: RecordedReading,
  file: string,
  line: number,
  problems: Problem[],
): Columns | null {
  const before = problems.length;
  const report: ColumnReport = (found, expected, mend) =>
    problems.push({ severity: 'error', file, line, found, expected, mend });
  const inferred: string[] = [];
  const names = header.map((name) => name.trim());
  const time = chooseTime(names, reading.time, report, inferred);
  const powers = choosePowers(names, reading, report, inferred);
  const taken = new Set<number | undefined>([time?.index, time?.dateIndex]);
  for (const power of powers) {
    taken.add(power.index);
    if (power.voltage !== null && 'index' in power.voltage) taken.add(power.voltage.index);
  }
  const rows = chooseRows(names, reading.where, report);
  for (const { index } of rows) taken.add(index);
  const channelDenied = reading.channel === 'none' && !names.includes('none');
  const channel = channelDenied ? null : chooseChannel(names, reading.channel, taken, report, inferred);
  if (problems.length > before || time === null) return null;
  if (channel !== null && powers.length > 1) {
    report(
      `a channel column ${channel.name} and ${powers.length} power columns`,
      'one of the two: rows by channel, or a column for each channel',
      'give --channel none, or a single --power COLUMN',
    );
    return null;
  }
  taken.add(channel?.index);
  const unused = names.filter((name, i) => name !== '' && !taken.has(i));
  return { time, timeUnitGiven: time.given, powers, rows, channel, channelDenied, unused, inferred };
}

/** The column of stamps, by option or by name; a date and a time of day in two columns are taken together. */
export function chooseTime(
  names: readonly string[],
  wanted: string | null,
  report: ColumnReport,
  inferred: string[],
): (TimeColumn & { readonly given: boolean }) | null {
  if (wanted !== null) {
    const cut = names.includes(wanted) ? -1 : wanted.lastIndexOf(':');
    const unit = cut < 0 ? null : timeUnitOrStep(wanted.slice(cut + 1).trim());
    const name = unit === null ? wanted : wanted.slice(0, cut);
    const index = findColumn(names, name, '--time', report);
    if (index < 0) return null;
    return { index, dateIndex: -1, name, unit: unit ?? timeUnitIn(name)?.unit ?? null, given: unit !== null };
  }
  const measured = (name: string) => saysPower(name) || saysCurrent(name) || saysVoltage(name);
  const candidates = names.flatMap((name, i) => (saysTime(name) && !measured(name) ? [i] : []));
  const only = (word: string) => candidates.filter((i) => wordsOf(names[i]!).join() === word);
  const [dates, times] = [only('date'), only('time')];
  if (candidates.length === 2 && dates.length === 1 && times.length === 1) {
    inferred.push(`Time is columns ${names[dates[0]!]} and ${names[times[0]!]} together, by their names.`);
    return { index: times[0]!, dateIndex: dates[0]!, name: names[times[0]!]!, unit: null, given: false };
  }
  if (candidates.length === 1) {
    const index = candidates[0]!;
    const name = names[index]!;
    const unit = timeUnitIn(name)?.unit ?? null;
    inferred.push(`Time is column ${name}${unit === null ? '' : ` in ${unit}`}, by its name.`);
    return { index, dateIndex: -1, name, unit, given: false };
  }
  if (candidates.length === 0) {
    report(
      `no time column among ${names.join(', ')}`,
      'a column of stamps',
      'give --time COLUMN; of a plain counter with its step, such as --time "COLUMN:10 ms"',
    );
  } else {
    const options = candidates.map((i) => `--time ${quotedName(names[i]!)}`).join(' or ');
    report(`${candidates.length} columns that may be the time`, 'one time column', `give ${options}`);
  }
  return null;
}

function chooseChannel(
  names: readonly string[],
  wanted: string | null,
  taken: ReadonlySet<number | undefined>,
  report: ColumnReport,
  inferred: string[],
) {
  if (wanted !== null) {
    const index = findColumn(names, wanted, '--channel', report);
    return index < 0 ? null : { index, name: names[index]! };
  }
  const candidates = names.flatMap((name, i) => (!taken.has(i) && saysChannel(name) ? [i] : []));
  if (candidates.length > 1) {
    const options = candidates.map((i) => `--channel ${quotedName(names[i]!)}`).join(' or ');
    report(
      `${candidates.length} columns that may name the channel`,
      'at most one',
      `give ${options} or --channel none`,
    );
    return null;
  }
  const index = candidates[0];
  if (index === undefined) return null;
  inferred.push(`Rows belong to the channel that column ${names[index]} names, by its name.`);
  return { index, name: names[index]! };
}
