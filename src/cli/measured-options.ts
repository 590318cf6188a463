import { type Command, InvalidArgumentError, Option } from 'commander';
import { channelsOf } from '../engine/gauge.ts';
import type { Measurement } from '../measured/measurement.ts';
import { MeasuredReader } from '../measured/read-measured.ts';
import { assemble } from '../network/network.ts';
import { readQuantity } from '../quantity.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { readPieces } from './read-pieces.ts';

/** What the options of a measurement hold once parsed. */
export interface MeasuredOptions {
  readonly measured?: string;
  readonly map?: ReadonlyMap<string, string>;
  readonly measuredTime?: string;
  readonly measuredDates?: 'day-first' | 'month-first';
  readonly measuredDecimal?: 'comma' | 'point';
  readonly measuredAt?: number;
}

/** Adds the options that say what was measured and how its file is to be read. */
export function addMeasuredOptions(command: Command): Command {
  return command
    .option(
      '--measured <file>',
      'lay a measurement over the run: columns named like channels, A.S1.voltage_V',
    )
    .option('--map <column=channel>', 'column that stands for a channel; repeatable', mapped)
    .option('--measured-at <time>', 'time of the run at its first stamp (otherwise found by comparing)', time)
    .option('--measured-time <column>', 'its column of stamps; COLUMN:UNIT settles the unit')
    .addOption(
      new Option('--measured-dates <order>', 'order of day and month in it').choices([
        'day-first',
        'month-first',
      ]),
    )
    .addOption(new Option('--measured-decimal <mark>', 'its decimal mark').choices(['comma', 'point']));
}

/** Reads the measurement that the options name, for the channels of the scenario; undefined where none is named. */
export function measurementOf(options: MeasuredOptions, scenario: Scenario): Measurement | undefined {
  const { measured: path } = options;
  if (path === undefined) return undefined;
  const reader = new MeasuredReader(
    path,
    {
      time: options.measuredTime ?? null,
      dates: options.measuredDates ?? null,
      decimal: options.measuredDecimal ?? null,
      map: options.map ?? new Map(),
      at_s: options.measuredAt ?? null,
    },
    channelsOf(assemble(scenario)),
  );
  return reader.finish(readPieces(path, path, (text) => reader.push(text)));
}

function mapped(word: string, before: ReadonlyMap<string, string> = new Map()): ReadonlyMap<string, string> {
  const cut = word.lastIndexOf('=');
  if (cut < 1 || cut === word.length - 1) {
    throw new InvalidArgumentError('It must be COLUMN=CHANNEL, for example v_bus=A.S1.voltage_V.');
  }
  return new Map([...before, [word.slice(0, cut), word.slice(cut + 1)]]);
}

function time(text: string): number {
  const read = readQuantity(text.replace(/^-/, ''), 'time');
  if (!read.ok) throw new InvalidArgumentError('It must be a time, for example 0.5s.');
  return text.startsWith('-') ? -read.value : read.value;
}
