import { type Bundle, contents, type Encoded, formatName, formatVersion, type Manifest } from './format.ts';
import { sha256 } from './sum.ts';

/** What the manifest says of a bundle's files. */
export function manifestOf(
  { report, provenance }: Bundle,
  { wake, columns, inputs, files }: Encoded,
): Manifest {
  const holds = new Map<string, string>([
    ...Object.entries(contents),
    ...inputs.map(({ file, path }): [string, string] => [file, `the input ${path}`]),
  ]);
  return {
    format: formatName,
    version: formatVersion,
    tool_version: report.tool_version,
    build: provenance.build,
    byte_order: 'little-endian',
    wake,
    columns,
    inputs,
    files: [...files].map(([name, bytes]) => ({
      name,
      holds: holds.get(name)!,
      bytes: bytes.length,
      sha256: sha256(bytes),
    })),
  };
}
