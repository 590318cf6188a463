/**
 * The manifest as text and back. Its last field is the sum of every byte before it, so that a manifest in which any
 * byte has changed is recognised as such, whatever that byte meant.
 */
import { BadInput } from '../base/problem.ts';
import { formatName, formatVersion, type Manifest, manifestName } from './format.ts';
import { strictJson } from './json.ts';
import { manifestFrom, otherVersion } from './manifest-shape.ts';
import { sha256 } from './sum.ts';

/** What a manifest's text ends in. */
const ending = (sum: string): string => ` "sum": "${sum}"\n}\n`;
const endingLength = ending('0'.repeat(64)).length;

/** The manifest's text, sum included. */
export function manifestText(manifest: Manifest): Uint8Array {
  const open = strictJson(manifestName, manifest).replace(/\n\}\n$/, ',\n');
  const summed = new TextEncoder().encode(open);
  return new TextEncoder().encode(open + ending(sha256(summed)));
}

/** The manifest in the bytes of `file`. Throws BadInput where they are not what `manifestText` wrote. */
export function readManifestText(bytes: Uint8Array, file: string): Manifest {
  const summed = bytes.subarray(0, -endingLength);
  const found = new TextDecoder().decode(bytes.subarray(-endingLength));
  const text = new TextDecoder().decode(bytes);
  const version = versionOf(text);
  const refused = (what: string, expected: string, mend: string): BadInput =>
    new BadInput([{ severity: 'error', file, found: what, expected, mend }]);
  if (found === ending(sha256(summed)) && version === formatVersion)
    return manifestFrom(parsed(text, file), file);
  if (version === null)
    throw refused('no manifest', `format "${formatName}"`, 'name a directory that `run --out` wrote');
  if (version !== formatVersion) throw otherVersion(version, file);
  throw refused(
    'text that does not match the checksum at its end',
    'the manifest as it was written',
    'it was cut short or changed after it was written: run the scenario again with --out',
  );
}

/** Version that a manifest begins with; null where the text is none. */
function versionOf(text: string): number | null {
  const head = new RegExp(`^\\{\\s*"format":\\s*"${formatName}",\\s*"version":\\s*(\\d+),`).exec(text);
  return head === null ? null : Number(head[1]);
}

/** The manifest without its sum, which has been seen to. */
function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text.slice(0, -endingLength).replace(/,\n$/, '\n}'));
  } catch (error) {
    throw new BadInput([
      {
        severity: 'error',
        file,
        found: `text that is not JSON (${(error as Error).message})`,
        expected: 'the manifest of a bundle',
        mend: 'run the scenario again with --out',
      },
    ]);
  }
}
