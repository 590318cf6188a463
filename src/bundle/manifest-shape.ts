/** The shape of a manifest, and what its lists must have in common. */

import { BadInput } from '../base/problem.ts';
import { channelKinds, channelUnits } from '../channels/channel.ts';
import {
  fileNames,
  formatName,
  formatVersion,
  type InputEntry,
  inputFile,
  type Manifest,
  manifestName,
} from './format.ts';
import { count, exactly, fitted, listOf, matching, oneOf, record, type Shape, text, truth } from './shape.ts';

const sum = matching(/^[0-9a-f]{64}$/, 'a SHA-256 in hexadecimal');

/** Which inputs were read, and in which files of a directory they are kept. */
export const inputEntries: Shape<readonly InputEntry[]> = listOf(
  record({ path: text, sha256: sum, file: matching(inputFile, 'a file of the inputs'), gzip: truth }),
);

const shape = record({
  format: oneOf(formatName),
  version: exactly(formatVersion),
  tool_version: text,
  build: record({ source_sha256: sum, node_version: text }),
  byte_order: oneOf('little-endian'),
  wake: record({
    buckets: count,
    channels: listOf(
      record({ id: text, kind: oneOf(...channelKinds), owner: text, unit: oneOf(...channelUnits) }),
    ),
    close_ups: listOf(count),
  }),
  columns: listOf(record({ name: text, length: count })),
  inputs: inputEntries,
  files: listOf(record({ name: text, holds: text, bytes: count, sha256: sum })),
});

/** Said of a manifest that another version of the tool wrote. */
export function otherVersion(version: number, file: string): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file,
      found: `format version ${version}`,
      expected: `format version ${formatVersion}`,
      mend:
        version < formatVersion
          ? 'it does not hold all that is read of a run now: run the scenario again with --out'
          : 'read it with the version of the tool that wrote it, or run the scenario again',
    },
  ]);
}

/** The manifest in `value`, or BadInput at the first place that is not as it must be. */
export function manifestFrom(value: unknown, file: string): Manifest {
  const { format, version } = Object(value) as { format?: unknown; version?: unknown };
  if (format === formatName && typeof version === 'number' && version !== formatVersion)
    throw otherVersion(version, file);
  const manifest = fitted(shape, value, file);
  const wanted = [...fileNames, ...manifest.inputs.map((input) => input.file)];
  const listed = manifest.files.map(({ name }) => name);
  const wrong =
    repeated('a file named twice', listed) ??
    repeated(
      'an input named twice',
      manifest.inputs.map(({ path }) => path),
    ) ??
    repeated(
      'a channel named twice',
      manifest.wake.channels.map(({ id }) => id),
    ) ??
    repeated(
      'a column named twice',
      manifest.columns.map(({ name }) => name),
    ) ??
    absent('a file it does not know', listed, wanted) ??
    absent('no entry for a file', wanted, listed);
  if (wrong === null) return manifest;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: wrong,
      expected: `one entry for each of ${fileNames.join(', ')} and for each input`,
      mend: `${manifestName} was changed after it was written: run the scenario again with --out`,
    },
  ]);
}

function repeated(what: string, names: readonly string[]): string | null {
  const twice = names.find((name, k) => names.indexOf(name) !== k);
  return twice === undefined ? null : `${what}: ${twice}`;
}

function absent(what: string, names: readonly string[], known: readonly string[]): string | null {
  const stranger = names.find((name) => !known.includes(name));
  return stranger === undefined ? null : `${what}: ${stranger}`;
}
