/** What a command runs: the scenario with its changes, and the recording where the load is one. */
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import type { Problem } from '../problem.ts';
import { readScenario } from '../scenario/read.ts';
import type { Change, RecordedReading, Scenario, Waiver } from '../scenario/scenario.ts';
import { readTextFile } from './files.ts';
import { readRecording } from './read-recording.ts';
import { scenarioFile } from './scenario-named.ts';

export interface ToRun {
  readonly scenario: Scenario;
  readonly recorded: RecordedLoad | null;
  readonly warnings: readonly Problem[];
}

/**
 * Reads a scenario by name or path. `load`: a recording that replaces its load, whole, with how it is to be
 * read; its scale is `--copies`, or a change of load.peak or load.scale.
 */
export function scenarioToRun(
  name: string,
  changes: readonly Change[],
  load: { readonly file: string; readonly reading: RecordedReading } | null,
  waivers: readonly Waiver[] = [],
): ToRun {
  const file = scenarioFile(name);
  if (load === null) {
    const { scenario, warnings } = readScenario(file, { files: readTextFile, changes, waivers });
    const recorded =
      scenario.load.kind === 'recorded' ? readRecording(scenario.load.file, scenario.load.reading) : null;
    return { scenario, recorded, warnings };
  }
  const recorded = readRecording(load.file, load.reading);
  const { scenario, warnings } = readScenario(file, {
    files: readTextFile,
    changes,
    waivers,
    recorded: wordsOf(load.file, recorded, load.reading),
  });
  return { scenario, recorded, warnings };
}

/** The load section that `--load` and its options stand for. */
function wordsOf(file: string, recorded: RecordedLoad, reading: RecordedReading): Record<string, string> {
  const words: Record<string, string> = {
    file,
    to: `${recorded.statement.duration_s} s`,
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
  if (reading.unit !== null) words['reading.unit'] = reading.unit;
  if (reading.copies !== null) words['reading.copies'] = String(reading.copies);
  return words;
}
