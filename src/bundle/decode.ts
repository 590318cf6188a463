/** The bytes of a bundle's files as a run again. Pure: the page and the reader on disk both use it. */
import type { Report } from '../analysis/report.ts';
import type { Result, Stays, Stream, WindowMeans } from '../engine/result.ts';
import type { LogEntry } from '../events/log.ts';
import { BadInput, type Problem } from '../problem.ts';
import type { Origin } from '../scenario/origin.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { meansFrom, staysFrom, streamsFrom, unpackColumns } from './columns.ts';
import {
  type Bundle,
  columnBytes,
  contents,
  type FileName,
  fileNames,
  type Manifest,
  wakeBytes,
} from './format.ts';
import { parseLoose } from './json.ts';
import { unpackWake } from './wake.ts';

type Readings = Omit<Result, 'recording' | 'log' | 'stays' | 'means' | 'streams'> & {
  readonly stays: Pick<Stays, 'nodes' | 'carry_s'>;
  readonly means: Omit<WindowMeans, 'columns'>;
  readonly streams: readonly Omit<Stream, 'samples'>[];
};

type WrittenScenario = Omit<Scenario, 'origins'> & { readonly origins: readonly [string, Origin][] };

/** Throws BadInput when a file is missing, is not JSON, or is not as long as the manifest's layout says. */
export function decodeBundle(manifest: Manifest, files: ReadonlyMap<string, Uint8Array>): Bundle {
  const problems: Problem[] = [];
  const bytes = (name: FileName): Uint8Array => {
    const found = files.get(name);
    if (found === undefined) problems.push(missing(name));
    return found ?? new Uint8Array();
  };
  const json = (name: FileName): unknown => parsed(name, bytes(name), problems);
  const report = json('report.json') as Report;
  const { origins, ...scenario } = json('scenario.json') as WrittenScenario;
  const readings = json('readings.json') as Readings;
  const log = json('log.json') as readonly LogEntry[];
  const wake = sized('wake.f32', bytes('wake.f32'), wakeBytes(manifest.wake), problems);
  const doubles = sized('streams.f64', bytes('streams.f64'), columnBytes(manifest.columns), problems);
  if (problems.length > 0) throw new BadInput(problems);
  const columns = unpackColumns(manifest.columns, doubles);
  const result: Result = {
    ...readings,
    recording: unpackWake(manifest.wake, wake),
    log,
    stays: staysFrom(readings.stays, columns),
    means: meansFrom(readings.means, columns),
    streams: streamsFrom(readings.streams, columns),
  };
  return { report, result, scenario: { ...scenario, origins: new Map(origins) } };
}

/** A file the manifest promises and that is not there. */
export function missing(name: FileName): Problem {
  return {
    severity: 'error',
    file: name,
    found: 'no such file in the bundle',
    expected: `${contents[name]} (a bundle holds ${fileNames.join(', ')})`,
    mend: 'run the scenario again with --out',
  };
}

function parsed(name: FileName, bytes: Uint8Array, problems: Problem[]): unknown {
  if (bytes.length === 0) return {};
  try {
    return parseLoose(new TextDecoder().decode(bytes));
  } catch (error) {
    problems.push({
      severity: 'error',
      file: name,
      found: `text that is not JSON (${(error as Error).message})`,
      expected: contents[name],
      mend: 'run the scenario again with --out',
    });
    return {};
  }
}

function sized(name: FileName, bytes: Uint8Array, expected: number, problems: Problem[]): Uint8Array {
  if (bytes.length > 0 && bytes.length !== expected) {
    problems.push({
      severity: 'error',
      file: name,
      found: `${bytes.length} bytes`,
      expected: `${expected} bytes, as the manifest's layout says`,
      mend: 'run the scenario again with --out',
    });
  }
  return bytes;
}
