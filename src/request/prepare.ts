/** From what was asked for, and a source of its inputs, to what the engine runs. */

import { BadInput, type Problem } from '../base/problem.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import type { Measured } from '../measured/measurement.ts';
import { type LimitsText, type ReadScenario, readScenario } from '../scenario/read.ts';
import type { Change, Scenario } from '../scenario/scenario.ts';
import type { Branch } from '../scenario/text/document.ts';
import type { InputSource } from './input-source.ts';
import { loadWords } from './load-words.ts';
import { placedReading, placeProblems } from './place-problems.ts';
import { type ReadingProgress, readLoad } from './read-load.ts';
import { readMeasurement } from './read-measurement.ts';
import type { AskedChange, AskedLoad, RunRequest } from './run-request.ts';

export interface Prepared {
  readonly scenario: Scenario;
  /** The recording, where the load is one. */
  readonly recorded: RecordedLoad | null;
  readonly measured: Measured | undefined;
  readonly warnings: readonly Problem[];
}

export interface PrepareOptions {
  readonly onProgress?: ReadingProgress;
  /** Limits as the project ships them, which the scenario's own are compared with. */
  readonly shippedLimits?: LimitsText;
  /** Documents read before, for who reads the same texts many times; filled here. */
  readonly trees?: Map<string, Branch>;
}

/**
 * Reads scenario, recording and measurement. The same request and the same texts give the same, wherever the texts
 * come from. Everything wrong is thrown as BadInput.
 */
export function prepare(request: RunRequest, source: InputSource, options: PrepareOptions = {}): Prepared {
  const { scenario: written, recorded, warnings } = scenarioOf(request, source, options);
  const { judged_on, asked_on } = request;
  const scenario = Object.freeze({ ...written, judged_on, asked_on });
  const asked = request.measured;
  const measured =
    asked === null
      ? undefined
      : { measurement: readMeasurement(source, asked, scenario), at_s: asked.at_s, near_s: asked.near_s };
  return { scenario, recorded, measured, warnings };
}

/** The scenario with its changes, the recording where the load is one, and all that was read with them. */
export function scenarioOf(
  { scenario: file, changes, load, waivers }: Pick<RunRequest, 'scenario' | 'changes' | 'load' | 'waivers'>,
  source: InputSource,
  { onProgress = () => {}, shippedLimits, trees }: PrepareOptions = {},
): Omit<Prepared, 'measured'> & { readonly read: ReadScenario } {
  const options = {
    changes,
    waivers,
    changesFrom: optionOf(changes),
    ...(shippedLimits === undefined ? {} : { shippedLimits }),
    ...(trees === undefined ? {} : { trees }),
  };
  if (load === null) {
    const read = readScenario(file, { files: (path) => source.text(path), ...options });
    const { scenario, warnings } = read;
    const { load: own } = scenario;
    const recorded = own.kind === 'recorded' ? readLoad(source, own.file, own.reading, onProgress) : null;
    return { scenario, recorded, warnings, read };
  }
  const recorded = readLoad(source, load.file, load.reading, onProgress);
  const { place } = recorded.statement;
  const unstated = [...scaleProblems(load, changes), ...placeProblems(place, load)];
  if (unstated.length > 0) throw new BadInput(unstated);
  const { sha256 } = recorded.statement;
  const read = readScenario(file, {
    // Of a recording the scenario wants the sum alone, and that is known by now: its text may be long.
    files: (path) => (path === load.file ? { text: null, sha256 } : source.text(path)),
    recorded: loadWords({ ...load, reading: placedReading(place, load) }, recorded),
    assumed: load.assumed.filter((key) => key !== 'reading.side' && key !== 'reading.at'),
    ...options,
  });
  return { scenario: renamed(read.scenario, load.file), recorded, warnings: read.warnings, read };
}

function optionOf(changes: readonly AskedChange[]): (change: Change) => string {
  const options = new Map<Change, string>(changes.map((asked) => [asked, asked.option]));
  return (change) => options.get(change) ?? '--set';
}

/** What the scenario says of itself holds for its own load only. */
function renamed(scenario: Scenario, file: string): Scenario {
  return Object.freeze({
    ...scenario,
    title: `${file.split('/').at(-1)} in place of the load of ${scenario.id}`,
    about: `The recording ${file} is played instead of the scenario's own load (${scenario.title}).`,
    expectation: '',
  });
}

function scaleProblems({ reading }: AskedLoad, changes: readonly AskedChange[]): Problem[] {
  const scaled = changes.some(({ path }) => path === 'load.peak' || path === 'load.scale');
  if (scaled || reading.copies !== null) return [];
  return [
    {
      severity: 'error',
      file: '--load',
      found: 'a recording without a number of copies',
      expected: 'how many times the cabinet holds the recorded load, all its channels together',
      mend: 'add --copies N, or scale it to a highest power by --set load.peak="300 kW"',
    },
  ];
}
