import { type Command, InvalidArgumentError, Option } from 'commander';
import { readQuantity } from '../../base/quantity.ts';
import type { AskedMeasurement } from '../../request/run-request.ts';
import { fromHere } from '../disk/from-here.ts';
import { anotherNumber } from './another-number.ts';

/** What the options of a measurement hold once parsed. */
export interface MeasuredOptions {
  readonly measured?: string;
  readonly map?: ReadonlyMap<string, string>;
  readonly measuredTime?: string;
  readonly measuredDates?: 'day-first' | 'month-first';
  readonly measuredDecimal?: 'comma' | 'point';
  readonly measuredAt?: number;
  readonly measuredNear?: number;
  readonly measuredSentinel?: readonly number[];
  readonly sensor?: ReadonlyMap<string, string>;
}

/** Adds the options that say what was measured and how its file is to be read. */
export function addMeasuredOptions(command: Command): Command {
  return command
    .option(
      '--measured <file>',
      'lay a measurement over the run: columns named like channels, A.S1.voltage_V',
    )
    .option('--map <column=channel>', 'column that holds a channel; repeatable', mapped)
    .option('--measured-at <time>', 'time of the run at its first stamp (otherwise found by comparing)', time)
    .option(
      '--measured-sentinel <value>',
      'a value of it that means that nothing was read, for example -999; repeatable',
      anotherNumber,
    )
    .option(
      '--sensor <column=kind>',
      'what measured it, which the simulated channel passes through too, for example "i_bus=rogowski, low 2 Hz"; repeatable',
      sensorOfColumn,
    )
    .option(
      '--measured-near <time>',
      'about that time: chooses between periods that agree as well, and is then found exactly',
      time,
    )
    .option('--measured-time <column>', 'its column of stamps; COLUMN:UNIT settles the unit')
    .addOption(
      new Option('--measured-dates <order>', 'order of day and month in it').choices([
        'day-first',
        'month-first',
      ]),
    )
    .addOption(new Option('--measured-decimal <mark>', 'its decimal mark').choices(['comma', 'point']));
}

/** The measurement that the options ask for; null where they name none. */
export function askedMeasurement(options: MeasuredOptions): AskedMeasurement | null {
  const { measured } = options;
  if (measured === undefined) return null;
  return {
    file: fromHere(measured),
    time: options.measuredTime ?? null,
    dates: options.measuredDates ?? null,
    decimal: options.measuredDecimal ?? null,
    map: [...(options.map ?? [])].map(([column, channel]) => ({ column, channel })),
    at_s: options.measuredAt ?? null,
    near_s: options.measuredNear ?? null,
    sentinel: options.measuredSentinel ?? [],
    sensors: [...(options.sensor ?? [])].map(([of, sensor]) => ({ of, sensor })),
  };
}

/** Pairs of a repeatable option; a name that stands twice is refused, for one of the two would act. */
function pairs(
  example: string,
  word: string,
  before: ReadonlyMap<string, string> = new Map(),
): ReadonlyMap<string, string> {
  const cut = word.lastIndexOf('=');
  if (cut < 1 || cut === word.length - 1) throw new InvalidArgumentError(`It must be ${example}.`);
  const name = word.slice(0, cut);
  if (before.has(name)) throw new InvalidArgumentError(`It stands twice for ${name}: leave one out.`);
  return new Map([...before, [name, word.slice(cut + 1)]]);
}

function sensorOfColumn(word: string, before?: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  return pairs('COLUMN=KIND, for example i_bus=shunt', word, before);
}

function mapped(word: string, before?: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  return pairs('COLUMN=CHANNEL, for example v_bus=A.S1.voltage_V', word, before);
}

function time(text: string): number {
  const read = readQuantity(text.replace(/^-/, ''), 'time');
  if (!read.ok) throw new InvalidArgumentError('It must be a time, for example 0.5s.');
  return text.startsWith('-') ? -read.value : read.value;
}
