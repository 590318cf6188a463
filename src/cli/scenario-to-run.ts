/** What a command runs: the scenario with its changes, and the recording where the load is one. */
import { basename } from 'node:path';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import { playableSpan } from '../loads/recorded/stretch.ts';
import { BadInput, type Problem } from '../problem.ts';
import { readScenario } from '../scenario/read.ts';
import type { Change, RecordedReading, Scenario, Waiver } from '../scenario/scenario.ts';
import { readTextFile } from './files.ts';
import { readRecording } from './read-recording.ts';
import { ReadingLine } from './reading-line.ts';
import { scenarioFile } from './scenario-named.ts';
import { shippedLimits } from './shipped-limits.ts';

export interface ToRun {
  readonly scenario: Scenario;
  readonly recorded: RecordedLoad | null;
  readonly warnings: readonly Problem[];
}

/** A recording that replaces a scenario's load: how it is to be read, and which of that nobody stated. */
export interface LoadInstead {
  readonly file: string;
  readonly reading: RecordedReading;
  readonly assumed: readonly string[];
}

/**
 * Reads a scenario by name or path. `load`: a recording that replaces its load, whole; its scale is `--copies`, or
 * a change of load.peak or load.scale. Limits are compared with those that come with the project.
 */
export function scenarioToRun(
  name: string,
  changes: readonly Change[],
  load: LoadInstead | null,
  waivers: readonly Waiver[] = [],
  changesFrom?: (change: Change) => string,
): ToRun {
  const file = scenarioFile(name);
  const named = {
    ...(changesFrom === undefined ? {} : { changesFrom }),
    shippedLimits: shippedLimits(),
  };
  if (load === null) {
    const { scenario, warnings } = readScenario(file, {
      files: filesBeside(null),
      changes,
      waivers,
      ...named,
    });
    const { load: own } = scenario;
    const recorded = own.kind === 'recorded' ? readWithLine(own.file, own.reading) : null;
    return { scenario, recorded, warnings };
  }
  refuseNoScale(load, changes);
  const recorded = readWithLine(load.file, load.reading);
  const { scenario, warnings } = readScenario(file, {
    files: filesBeside(recorded),
    changes,
    waivers,
    recorded: wordsOf(load.file, recorded, load.reading),
    assumed: load.assumed,
    ...named,
  });
  return { scenario: renamed(scenario, load.file), recorded, warnings };
}

/** What the scenario says of itself holds for its own load only. */
function renamed(scenario: Scenario, file: string): Scenario {
  return Object.freeze({
    ...scenario,
    title: `${basename(file)} in place of the load of ${scenario.id}`,
    about: `The recording ${file} is played instead of the scenario's own load (${scenario.title}).`,
    expectation: '',
  });
}

function refuseNoScale(load: { readonly reading: RecordedReading }, changes: readonly Change[]): void {
  const scaled = changes.some(({ path }) => path === 'load.peak' || path === 'load.scale');
  if (scaled || load.reading.copies !== null) return;
  throw new BadInput([
    {
      severity: 'error',
      file: '--load',
      found: 'a recording without a number of copies',
      expected: 'how often the whole recording stands in the cabinet, all its channels together',
      mend: 'add --copies N, or scale it to a highest power by --set load.peak="300 kW"',
    },
  ]);
}

/** Of a recording the scenario wants the sum alone, and that is known by then: its text may be long. */
function filesBeside(recorded: RecordedLoad | null): typeof readTextFile {
  return (path) =>
    path === recorded?.statement.file || (path === '-' && recorded?.statement.file === 'stdin')
      ? { text: '', sha256: recorded.statement.sha256 }
      : readTextFile(path);
}

function readWithLine(file: string, reading: RecordedReading): RecordedLoad {
  const line = new ReadingLine(file);
  try {
    return readRecording(file, reading, (rows, fraction) => line.at(rows, fraction));
  } finally {
    line.clear();
  }
}

/** The load section that `--load` and its options stand for. */
function wordsOf(file: string, recorded: RecordedLoad, reading: RecordedReading): Record<string, string> {
  const span = playableSpan(recorded);
  const words: Record<string, string> = {
    file,
    from: `${span.from_s} s`,
    to: `${span.to_s} s`,
    'reading.at': reading.at,
    'reading.side': reading.side,
    'reading.coincidence': reading.coincidence,
    'reading.smoothed': String(reading.smoothed),
  };
  if (reading.time !== null) words['reading.time'] = reading.time;
  if (reading.power.length > 0) words['reading.power'] = reading.power.join(', ');
  if (reading.current.length > 0) words['reading.current'] = reading.current.join(', ');
  if (reading.voltage !== null) words['reading.voltage'] = reading.voltage;
  if (reading.dates !== null) words['reading.dates'] = reading.dates;
  if (reading.decimal !== null) words['reading.decimal'] = reading.decimal;
  if (reading.averaging_s !== null) words['reading.averaging'] = `${reading.averaging_s} s`;
  for (const key of ['fresh', 'sort', 'align', 'accept_ac'] as const) {
    if (reading[key]) words[`reading.${key}`] = 'true';
  }
  if (reading.channel !== null) words['reading.channel'] = reading.channel;
  if (reading.where.length > 0) words['reading.where'] = reading.where.join(', ');
  if (reading.unit !== null) words['reading.unit'] = reading.unit;
  if (reading.copies !== null) words['reading.copies'] = String(reading.copies);
  return words;
}
