import type { Problem } from '../../problem.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { areNumbered, saysChannel, saysPower, saysTime } from './column-names.ts';
import { powerUnitIn, powerUnits, wattsOf } from './power-unit.ts';
import { type TimeUnit, timeUnitIn, timeUnitOf } from './time-unit.ts';

export interface PowerColumn {
  readonly index: number;
  readonly name: string;
  /** Watts of one unit; null where neither name nor option says, so that cells must. */
  readonly watts: number | null;
}

export interface Columns {
  readonly time: { readonly index: number; readonly name: string; readonly unit: TimeUnit | null };
  /** The time's unit was given by option: it is not questioned. */
  readonly timeUnitGiven: boolean;
  readonly powers: readonly PowerColumn[];
  readonly channel: { readonly index: number; readonly name: string } | null;
  /** The option said that no column names channels. */
  readonly channelDenied: boolean;
  readonly unused: readonly string[];
  /** What was taken from names alone, in plain sentences. */
  readonly inferred: readonly string[];
}

type Report = (found: string, expected: string, mend: string) => void;

/** Chooses columns by option, then by name. What is unclear goes to `problems` with the option that settles it. */
export function chooseColumns(
  header: readonly string[],
  reading: RecordedReading,
  file: string,
  line: number,
  problems: Problem[],
): Columns | null {
  const before = problems.length;
  const report: Report = (found, expected, mend) =>
    problems.push({ severity: 'error', file, line, found, expected, mend });
  const inferred: string[] = [];
  const names = header.map((name) => name.trim());
  const time = chooseTime(names, reading.time, report, inferred);
  const powers = choosePowers(names, reading, report, inferred);
  const taken = new Set([time?.index, ...powers.map((p) => p.index)]);
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
  return { time, timeUnitGiven: time.given, powers, channel, channelDenied, unused, inferred };
}

function find(names: readonly string[], wanted: string, option: string, report: Report): number {
  const index = names.indexOf(wanted.trim());
  if (index < 0) {
    report(
      `no column named ${wanted}`,
      `one of ${names.join(', ')}`,
      `give ${option} with one of these names`,
    );
  }
  return index;
}

function chooseTime(names: readonly string[], wanted: string | null, report: Report, inferred: string[]) {
  if (wanted !== null) {
    const cut = names.includes(wanted) ? -1 : wanted.lastIndexOf(':');
    const unit = cut < 0 ? null : timeUnitOf(wanted.slice(cut + 1));
    const name = unit === null ? wanted : wanted.slice(0, cut);
    const index = find(names, name, '--time', report);
    if (index < 0) return null;
    return { index, name, unit: unit ?? timeUnitIn(name)?.unit ?? null, given: unit !== null };
  }
  const candidates = names.flatMap((name, i) => (saysTime(name) && !saysPower(name) ? [i] : []));
  if (candidates.length === 1) {
    const index = candidates[0]!;
    const name = names[index]!;
    const unit = timeUnitIn(name)?.unit ?? null;
    inferred.push(`Time is column ${name}${unit === null ? '' : ` in ${unit}`}, by its name.`);
    return { index, name, unit, given: false };
  }
  if (candidates.length === 0) {
    report(`no time column among ${names.join(', ')}`, 'a column of stamps', 'give --time COLUMN');
  } else {
    const options = candidates.map((i) => `--time ${quoted(names[i]!)}`).join(' or ');
    report(`${candidates.length} columns that may be the time`, 'one time column', `give ${options}`);
  }
  return null;
}

function choosePowers(
  names: readonly string[],
  reading: RecordedReading,
  report: Report,
  inferred: string[],
): PowerColumn[] {
  let indices = reading.power.map((name) => find(names, name, '--power', report)).filter((i) => i >= 0);
  if (reading.power.length === 0) {
    indices = names.flatMap((name, i) => (saysPower(name) ? [i] : []));
    const found = indices.map((i) => names[i]!);
    if (indices.length === 0) {
      report(
        `no power column among ${names.join(', ')}`,
        'a column of power with its unit in the name',
        'give --power COLUMN and --unit UNIT',
      );
    } else if (indices.length > 1 && !areNumbered(found)) {
      report(
        `${indices.length} columns that may be the power: ${found.join(', ')}`,
        'one power column, or several that are to be summed',
        `give ${found.map((name) => `--power ${quoted(name)}`).join(' or ')} (repeat --power to sum)`,
      );
      return [];
    } else inferred.push(`Power is ${found.join(' + ')}, by name.`);
  }
  return indices.map((index) => ({
    index,
    name: names[index]!,
    watts: unitOf(names[index]!, reading.unit, report, inferred),
  }));
}

function unitOf(name: string, wanted: string | null, report: Report, inferred: string[]): number | null {
  const written = powerUnitIn(name)?.unit ?? null;
  const unit = wanted ?? written;
  if (unit === null) return null;
  const watts = wattsOf(unit);
  if (typeof watts === 'number') {
    if (wanted !== null && written !== null && wattsOf(written) !== watts) {
      inferred.push(`${name} is read in ${wanted} as given, although its name says ${written}.`);
    } else if (wanted === null) inferred.push(`${name} is in ${written}, by its name.`);
    return watts;
  }
  report(
    watts === 'unclear' ? `unit ${unit}, milliwatt or megawatt` : `unit ${unit}`,
    `one of ${powerUnits}`,
    watts === 'unclear' ? 'give --unit mW or --unit MW' : 'give --unit with one of these',
  );
  return null;
}

function chooseChannel(
  names: readonly string[],
  wanted: string | null,
  taken: ReadonlySet<number | undefined>,
  report: Report,
  inferred: string[],
) {
  if (wanted !== null) {
    const index = find(names, wanted, '--channel', report);
    return index < 0 ? null : { index, name: names[index]! };
  }
  const candidates = names.flatMap((name, i) => (!taken.has(i) && saysChannel(name) ? [i] : []));
  if (candidates.length > 1) {
    const options = candidates.map((i) => `--channel ${quoted(names[i]!)}`).join(' or ');
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

function quoted(name: string): string {
  return /^[\w.:/-]+$/.test(name) ? name : `"${name}"`;
}
