import type { Problem } from '../../base/problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { type ChosenTime, chooseTime } from '../../tables/columns/choose-time.ts';
import { saysChannel, saysNaming } from '../../tables/columns/column-names.ts';
import { asOption, type ColumnReport, columnLabel, findColumn } from '../../tables/columns/column-report.ts';
import { besideOf, type SiColumn } from './against-current.ts';
import { choosePowers } from './choose-powers.ts';
import { chooseRows, type RowFilter } from './choose-rows.ts';
import { type NamedColumn, notesAmong } from './of-the-readings.ts';
import type { Overruled } from './overruled.ts';
import type { PowerColumn } from './power-choice.ts';

export interface ChosenColumns {
  readonly time: ChosenTime;
  readonly powers: readonly PowerColumn[];
  readonly rows: readonly RowFilter[];
  readonly channel: { readonly index: number; readonly name: string } | null;
  /** The option said that no column names channels. */
  readonly channelDenied: boolean;
  /** Columns that may name channels although that was denied. */
  readonly denied: readonly { readonly index: number; readonly name: string }[];
  /** Columns of words, which may say of what quantity a row is; chosen ones name channels, or the rows to take. */
  readonly labels: readonly { readonly index: number; readonly name: string; readonly isChosen: boolean }[];
  readonly unused: readonly string[];
  /** Columns among these that say something of the readings. */
  readonly notes: readonly NamedColumn[];
  /** A current and a voltage beside powers, which must multiply to them. */
  readonly beside: readonly SiColumn[] | null;
  /** What was taken from names alone, in plain sentences. */
  readonly inferred: readonly string[];
}

/** Chooses columns by option, then by name; `texts` hold words alone, as far as they were looked at. What is unclear goes to `problems` with the option that settles it. */
export function chooseColumns(
  header: readonly string[],
  reading: RecordedReading,
  file: string,
  line: number,
  problems: Problem[],
  texts: ReadonlySet<number>,
  overruled: Overruled,
): ChosenColumns | null {
  const before = problems.length;
  const report: ColumnReport = (found, expected, mend) =>
    problems.push({ severity: 'error', file, line, found, expected, mend });
  const inferred: string[] = [];
  const names = header.map((name) => name.trim());
  const time = chooseTime(names, reading.time, report, inferred);
  const powers = choosePowers(names, { reading, report, inferred, overruled }, texts);
  const taken = new Set<number | undefined>([time?.index, time?.dateIndex]);
  for (const power of powers) {
    taken.add(power.index);
    if (power.voltage !== null && 'index' in power.voltage) taken.add(power.voltage.index);
  }
  const rows = chooseRows(names, reading.where, report);
  const labels = names.flatMap((name, index) => {
    if (taken.has(index)) return [];
    const isChosen = rows.some((row) => row.index === index);
    return isChosen || texts.has(index) ? [{ index, name, isChosen }] : [];
  });
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
  const ofChannel = labels.filter(({ index }) => index !== channel?.index);
  if (channel !== null) ofChannel.push({ ...channel, isChosen: true });
  const denied = names.flatMap((name, index) =>
    channelDenied && !taken.has(index) && (saysChannel(name) || saysNaming(name)) ? [{ index, name }] : [],
  );
  const unused = names.filter((name, i) => name !== '' && !taken.has(i));
  const beside = powers.every(({ voltage }) => voltage === null) ? besideOf(names, unused) : null;
  const notes = notesAmong(names, unused);
  return {
    time,
    powers,
    rows,
    channel,
    channelDenied,
    denied,
    labels: ofChannel,
    unused,
    notes,
    beside,
    inferred,
  };
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
    return index < 0 ? null : { index, name: columnLabel(names, index) };
  }
  const candidates = names.flatMap((name, i) => (!taken.has(i) && saysChannel(name) ? [i] : []));
  if (candidates.length > 1) {
    const options = candidates.map((i) => `--channel ${asOption(names, i)}`).join(' or ');
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
