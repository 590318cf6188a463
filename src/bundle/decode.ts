/** The bytes of a bundle's files as a run again. Pure: the reader on disk and, with the samples of its own, the page use it. */
import type { Report } from '../analysis/judge/report.ts';
import { BadInput, type Problem } from '../base/problem.ts';
import type { Recording, Result, Stays, Stream, WindowMeans } from '../engine/result.ts';
import type { LogEntry } from '../events/log.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Origin } from '../scenario/text/origin.ts';
import { meansFrom, staysFrom, streamsFrom, unpackColumns } from './columns.ts';
import {
  type Bundle,
  columnBytes,
  contents,
  type FileEntry,
  type FileName,
  type Manifest,
  type Provenance,
  wakeBytes,
} from './format.ts';
import { parseLoose } from './json.ts';
import { reportShape } from './report-shape.ts';
import { requestShape } from './request-shape.ts';
import { fitted, holding, listOf, type Shape, text, whatever } from './shape.ts';
import { unpackWake } from './wake.ts';

type Readings = Omit<Result, 'recording' | 'log' | 'stays' | 'means' | 'streams'> & {
  readonly stays: Pick<Stays, 'nodes' | 'carry_s'>;
  readonly means: Omit<WindowMeans, 'columns'>;
  readonly streams: readonly Omit<Stream, 'samples'>[];
};

type WrittenScenario = Omit<Scenario, 'origins'> & { readonly origins: readonly [string, Origin][] };

/** What the readers of each file take for granted of it; the rest is as the writer left it. */
const scenarioShape = holding({ origins: listOf(listOf(whatever)) });
const readingsShape = holding({
  streams: listOf(holding({ channel: text })),
  means: holding({}),
  stays: holding({ nodes: listOf(text) }),
});

type FileContents = ReadonlyMap<string, Uint8Array>;

/** The long rows of numbers of a result: the recording, and columns by name. */
export interface Samples {
  readonly recording: Recording;
  readonly columns: ReadonlyMap<string, Float64Array>;
}

/** Throws BadInput when a file is missing, is not JSON of its shape, or is not as long as the manifest's layout says. */
export function decodeBundle(manifest: Manifest, files: FileContents): Bundle {
  return decodeAround(manifest, files, {
    recording: unpackWake(manifest.wake, sized('wake.f32', files, wakeBytes(manifest.wake))),
    columns: unpackColumns(manifest.columns, sized('streams.f64', files, columnBytes(manifest.columns))),
  });
}

/** The run around samples that were read already. Throws BadInput as `decodeBundle` does. */
export function decodeAround(manifest: Manifest, files: FileContents, samples: Samples): Bundle {
  const { recording, columns } = samples;
  const report = decodeReport(files);
  const { origins, ...scenario } = json('scenario.json', files, scenarioShape) as WrittenScenario;
  const readings = json('readings.json', files, readingsShape) as Readings;
  const log = json('log.json', files, listOf(whatever)) as readonly LogEntry[];
  const result: Result = {
    ...readings,
    recording,
    log,
    stays: staysFrom(readings.stays, columns),
    means: meansFrom(readings.means, columns),
    streams: streamsFrom(readings.streams, columns),
  };
  return {
    report,
    result,
    scenario: { ...scenario, origins: new Map(origins) },
    provenance: decodeProvenance(manifest, files),
  };
}

/** The judged run. Throws BadInput as `decodeBundle` does. */
export function decodeReport(files: FileContents): Report {
  return json('report.json', files, reportShape) as Report;
}

/** What the run was made from. Throws BadInput as `decodeBundle` does. */
export function decodeProvenance({ inputs, build }: Manifest, files: FileContents): Provenance {
  const request = fitted(requestShape, json('request.json', files, whatever), 'request.json');
  return {
    request,
    inputs: inputs.map((entry) => ({
      ...entry,
      content: present(entry.file, `the input ${entry.path}`, files),
    })),
    build,
  };
}

/** A file the manifest promises and that is not there. */
export function missing({ name, holds }: Pick<FileEntry, 'name' | 'holds'>): Problem {
  return {
    severity: 'error',
    file: name,
    found: 'no such file in the bundle',
    expected: holds,
    mend: 'run the scenario again with --out',
  };
}

function present(name: string, holds: string, files: FileContents): Uint8Array {
  const bytes = files.get(name);
  if (bytes === undefined) throw new BadInput([missing({ name, holds })]);
  return bytes;
}

/** The value in a file of JSON, whole, once it has been seen to have the shape. */
function json(name: FileName, files: FileContents, shape: Shape<unknown>): unknown {
  const bytes = present(name, contents[name], files);
  let value: unknown;
  try {
    value = parseLoose(new TextDecoder().decode(bytes));
  } catch (error) {
    const found = `text that is not JSON (${(error as Error).message})`;
    throw new BadInput([{ ...missing({ name, holds: contents[name] }), found }]);
  }
  fitted(shape, value, name);
  return value;
}

function sized(name: FileName, files: FileContents, expected: number): Uint8Array {
  const bytes = present(name, contents[name], files);
  if (bytes.length === expected) return bytes;
  throw new BadInput([
    {
      severity: 'error',
      file: name,
      found: `${bytes.length} bytes`,
      expected: `${expected} bytes, as the manifest's layout says`,
      mend: 'run the scenario again with --out',
    },
  ]);
}
