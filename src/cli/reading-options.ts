import { type Command, InvalidArgumentError, Option } from 'commander';
import type { RecordedReading } from '../scenario/scenario.ts';

/** What the reading options of a command hold once parsed. */
export interface ReadingOptions {
  readonly time?: string;
  readonly power?: readonly string[];
  readonly channel?: string;
  readonly unit?: string;
  readonly at?: RecordedReading['at'];
  readonly side?: RecordedReading['side'];
  readonly copies?: number;
  readonly coincidence?: RecordedReading['coincidence'];
  readonly smoothed?: boolean;
}

/** Adds the options that say how a recorded load is to be read and what was measured. */
export function addReadingOptions(command: Command): Command {
  return command
    .option('--time <column>', 'column of the stamps; COLUMN:UNIT settles their unit (s, ms, us, ns)')
    .option('--power <column>', 'column of the power; repeat to sum several', append)
    .option('--channel <column>', 'column that names the channel (long form), or none')
    .option('--unit <unit>', 'unit of the power: µW, mW, W, kW or MW')
    .addOption(
      new Option('--at <place>', 'where it was measured (default: device)').choices([
        'device',
        'sled',
        'rack',
      ]),
    )
    .addOption(
      new Option('--side <side>', 'on which side of the power supply (default: dc)').choices(['dc', 'ac']),
    )
    .option('--copies <n>', 'how many such devices there are', wholeAboveZero)
    .addOption(
      new Option('--coincidence <how>', 'how copies run against each other (default: together)').choices([
        'together',
        'spread',
        'worst',
      ]),
    )
    .option('--smoothed', 'other smoothing was on while recording');
}

/** The reading that parsed options ask for. */
export function readingOf(options: ReadingOptions): RecordedReading {
  return {
    time: options.time ?? null,
    power: options.power ?? [],
    channel: options.channel ?? null,
    unit: options.unit ?? null,
    at: options.at ?? 'device',
    side: options.side ?? 'dc',
    copies: options.copies ?? null,
    coincidence: options.coincidence ?? 'together',
    smoothed: options.smoothed ?? false,
  };
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
