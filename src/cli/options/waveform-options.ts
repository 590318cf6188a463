/** Options for waveforms: which channels, into which files, at every step or at a rate through a filter. */
import { type Command, Option } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { formatQuantity, readQuantity } from '../../base/quantity.ts';
import { type ColumnSeries, seriesOf } from '../../channels/series.ts';
import { refuseExisting } from '../../disk/write-file.ts';
import { channelsOf } from '../../engine/gauge.ts';
import {
  type Pace,
  ticksAveraged,
  type WaveformFilter,
  waveformFilters,
} from '../../engine/meters/waveforms.ts';
import { channelWords, chooseSeries } from '../../export/choose-series.ts';
import { assemble } from '../../network/network.ts';
import type { Scenario } from '../../scenario/scenario.ts';

export interface PaceOptions {
  readonly channels?: string;
  readonly rate?: string;
  readonly filter?: WaveformFilter;
}

export interface WaveformOptions extends PaceOptions {
  readonly csv?: string;
  readonly parquet?: string;
}

export function addPaceOptions(command: Command): Command {
  return command
    .option('--channels <list>', 'which channels, for example total.*,S1.current_A,F1.ac_power_W')
    .option('--rate <frequency>', 'evenly spaced rows instead of one a step, for example "1 kHz"')
    .addOption(
      new Option(
        '--filter <filter>',
        'what a row at a rate is: flat to 0.3 of it, or the mean over its interval',
      ).choices([...waveformFilters]),
    );
}

export function addWaveformOptions(command: Command): Command {
  return addPaceOptions(
    command
      .option('--csv <file>', 'write waveforms there while it runs, one row a step')
      .option('--parquet <file>', 'the same as Parquet, binary64'),
  );
}

/** Everything that a run of the scenario can give out. */
export function everySeries(scenario: Scenario): readonly ColumnSeries[] {
  const shelvesOf = (id: string): string[] =>
    scenario.shelves.filter(({ feeder }) => feeder === id).map((shelf) => shelf.id);
  return seriesOf(
    channelsOf(assemble(scenario)),
    scenario.feeders.map(({ id }) => ({ id, shelves: shelvesOf(id) })),
  );
}

/** The series that were chosen, or the usual ones. Throws BadInput where a word names none. */
export function askedSeries(scenario: Scenario, { channels }: PaceOptions): readonly ColumnSeries[] {
  const all = everySeries(scenario);
  return channels === undefined
    ? all.filter(({ usual }) => usual)
    : chooseSeries(all, channelWords(channels));
}

/** Throws BadInput where the rate is none that whole ticks make, or so low that the run gives no row. */
export function askedPace(
  { rate, filter }: PaceOptions,
  { tick_s, duration_s }: Pick<Scenario, 'tick_s' | 'duration_s'>,
): Pace {
  if (rate === undefined) return { kind: 'every-step' };
  const read = readQuantity(rate, 'frequency');
  if (!read.ok) throw new BadInput([{ severity: 'error', file: '--rate', ...read }]);
  if (read.value * duration_s < 1)
    refuse(
      '--rate',
      rate,
      `at least one row in ${formatQuantity(duration_s, 'time', 4)}, as long as the run lasts`,
      'raise it',
    );
  const pace = { kind: 'rate', rate_Hz: read.value, filter: filter ?? 'low-pass' } as const;
  const ticks = ticksAveraged(pace.rate_Hz, pace.filter, tick_s);
  if (!(ticks >= 1) || Math.abs(ticks - Math.round(ticks)) > 1e-6 * ticks) {
    const most_Hz = pace.rate_Hz * ticksAveraged(pace.rate_Hz, pace.filter, tick_s);
    refuse(
      '--rate',
      rate,
      `a rate that divides ${formatQuantity(most_Hz, 'frequency', 4)}: each interval is a whole number of ticks`,
      'round it, for example to 1 kHz, 2 kHz, 5 kHz, 10 kHz or 20 kHz',
    );
  }
  return pace;
}

/** The files asked for by name; none where no waveforms are. Refuses what stands there already, unless forced. */
export function askedFiles({ csv, parquet }: WaveformOptions, force: boolean) {
  const files = [
    ...(csv === undefined ? [] : [{ form: 'csv', target: csv } as const]),
    ...(parquet === undefined ? [] : [{ form: 'parquet', target: parquet } as const]),
  ];
  refuseExisting(
    files.map(({ target }) => target),
    force,
  );
  return files;
}

/** A recording read both smooth and sharp is two runs: a file of waveforms is of one. */
export function refuseBothEdges({ load }: Scenario): void {
  if (load.kind === 'recorded' && load.edges === 'both')
    refuse(
      '--edges',
      'both readings of the recording, which are two runs',
      'one run, whose waveforms are written',
      'give --edges smooth or --edges sharp',
    );
}

function refuse(file: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
