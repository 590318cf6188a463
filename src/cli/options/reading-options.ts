import { type Command, InvalidArgumentError, Option } from 'commander';
import { readQuantity } from '../../base/quantity.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { anotherNumber } from './another-number.ts';

/** What the reading options of a command hold once parsed. */
export interface ReadingOptions {
  readonly time?: string;
  readonly power?: readonly string[];
  readonly current?: readonly string[];
  readonly voltage?: string;
  readonly channel?: string;
  readonly unit?: string;
  readonly where?: readonly string[];
  readonly dates?: RecordedReading['dates'];
  readonly decimal?: RecordedReading['decimal'];
  readonly averaging?: number;
  readonly samples?: 'means' | 'instants';
  readonly sentinel?: readonly number[];
  readonly fresh?: boolean;
  readonly sort?: boolean;
  readonly align?: boolean;
  readonly overrule?: boolean;
  readonly acceptAc?: boolean;
  readonly at?: RecordedReading['at'];
  readonly side?: RecordedReading['side'];
  readonly copies?: number;
  readonly coincidence?: RecordedReading['coincidence'];
  readonly smoothed?: boolean;
}

/** Adds the options that say how a recorded load is to be read and what was measured. */
export function addReadingOptions(command: Command): Command {
  return command
    .option(
      '--time <column>',
      'column of the stamps, by name or number; COLUMN:UNIT settles their unit (s, ms, us, ns), DATE+TIME takes two',
    )
    .option('--power <column>', 'column of the power, by name or number; repeat to sum several', append)
    .option(
      '--current <column>',
      'column of a current, taken times the voltage; repeat to sum several',
      append,
    )
    .option('--voltage <column>', 'column of the voltage, or its value, for example "50 V"')
    .option('--channel <column>', 'column that names the channel (long form), or none')
    .option('--unit <unit>', 'unit of the power (µW, mW, W, kW, MW) or current (mA, A, kA)')
    .option(
      '--where <column=value>',
      'take only rows where a column says so, for example metric=power_W; repeatable',
      append,
    )
    .addOption(
      new Option('--dates <order>', 'order of day and month in dates').choices(['day-first', 'month-first']),
    )
    .addOption(
      new Option('--decimal <mark>', 'decimal mark; with point, commas separate thousands').choices([
        'comma',
        'point',
      ]),
    )
    .option('--averaging <time>', 'time over which the sensor averaged, for example 1s', timeAboveZero)
    .addOption(
      new Option(
        '--samples <what>',
        'what a sample is: the mean over its interval, or the value at its stamp',
      ).choices(['means', 'instants']),
    )
    .option(
      '--sentinel <value>',
      'a value that means that nothing was read, for example -999; leaves a gap; repeatable',
      anotherNumber,
    )
    .option('--fresh', 'repeated values are the load itself, not a slow sensor')
    .option('--sort', 'stamps that jump back are out of order, not a clock that was set back')
    .option('--align', 'align channels in time')
    .option('--overrule', 'what these options say holds, though names or values of the file say otherwise')
    .addOption(
      new Option('--at <place>', 'where it was measured, where its columns do not say').choices([
        'device',
        'sled',
        'rack',
      ]),
    )
    .addOption(
      new Option('--side <side>', 'on which side of the power supply, where its columns do not say').choices([
        'dc',
        'ac',
      ]),
    )
    .option('--smoothed', 'other smoothing was on while recording');
}

/** Adds the options that say how often and how the cabinet holds what was recorded. */
export function addUseOptions(command: Command): Command {
  return command
    .option('--accept-ac', 'use an AC recording as the DC load, its filtering and losses included')
    .option(
      '--copies <n>',
      'how many times the cabinet holds the recorded load, all its channels together: 100 accelerators are 50 copies of a recording of two',
      wholeAboveZero,
    )
    .addOption(
      new Option('--coincidence <how>', 'how copies run against each other (default: together)').choices([
        'together',
        'spread',
        'worst',
      ]),
    );
}

/** The reading that parsed options ask for. */
export function readingOf(options: ReadingOptions): RecordedReading {
  return {
    time: options.time ?? null,
    power: options.power ?? [],
    current: options.current ?? [],
    voltage: options.voltage ?? null,
    channel: options.channel ?? null,
    unit: options.unit ?? null,
    where: options.where ?? [],
    dates: options.dates ?? null,
    decimal: options.decimal ?? null,
    averaging_s: options.averaging ?? null,
    samples: options.samples ?? null,
    sentinel: options.sentinel ?? [],
    fresh: options.fresh ?? false,
    sort: options.sort ?? false,
    align: options.align ?? false,
    overrule: options.overrule ?? false,
    accept_ac: options.acceptAc ?? false,
    at: options.at ?? 'device',
    side: options.side ?? 'dc',
    copies: options.copies ?? null,
    coincidence: options.coincidence ?? 'together',
    smoothed: options.smoothed ?? false,
  };
}

/** What of a replay is taken for granted where no option says it, as keys of the load section. */
export function assumedOf(options: ReadingOptions): string[] {
  return (['at', 'side', 'coincidence'] as const)
    .filter((key) => options[key] === undefined)
    .map((key) => `reading.${key}`);
}

function append(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

function wholeAboveZero(text: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1)
    throw new InvalidArgumentError('It must be a whole number of 1 or more.');
  return n;
}

function timeAboveZero(text: string): number {
  const read = readQuantity(text, 'time');
  if (!read.ok || !(read.value > 0)) throw new InvalidArgumentError('It must be a time, for example 1s.');
  return read.value;
}
