/** Reads a kept run back and recognises what was cut short or changed since. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput, type Problem } from '../problem.ts';
import { decodeBundle, missing } from './decode.ts';
import { type Bundle, fileNames, formatName, formatVersion, type Manifest, manifestName } from './format.ts';
import { sha256 } from './write.ts';

/** The files of a bundle as they lie on disk, checked against the manifest. */
export interface BundleFiles {
  readonly manifest: Manifest;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** Throws BadInput naming every file that is missing, cut short or changed, with what was found and expected. */
export function readBundle(dir: string): Bundle {
  const { manifest, files } = readBundleFiles(dir);
  return decodeBundle(manifest, files);
}

/** The checked bytes, for who passes them on undecoded (the page). */
export function readBundleFiles(dir: string): BundleFiles {
  const manifest = readManifest(dir);
  const problems: Problem[] = [];
  const files = new Map<string, Uint8Array>();
  for (const name of fileNames) {
    const path = join(dir, name);
    const entry = manifest.files.find((file) => file.name === name);
    if (entry === undefined || !existsSync(path)) {
      problems.push({ ...missing(name), file: path });
      continue;
    }
    const bytes = new Uint8Array(readFileSync(path));
    files.set(name, bytes);
    if (bytes.length !== entry.bytes)
      problems.push(differs(path, `${bytes.length} bytes`, `${entry.bytes} bytes`));
    else if (sha256(bytes) !== entry.sha256)
      problems.push(differs(path, `SHA-256 ${sha256(bytes)}`, `SHA-256 ${entry.sha256}`));
  }
  if (problems.length > 0) throw new BadInput(problems);
  return { manifest, files };
}

function differs(path: string, found: string, expected: string): Problem {
  return {
    severity: 'error',
    file: path,
    found,
    expected: `${expected}, as ${manifestName} says`,
    mend: 'the file was cut short or changed after it was written: run the scenario again with --out',
  };
}

function readManifest(dir: string): Manifest {
  const path = join(dir, manifestName);
  const refuse = (found: string, expected: string, mend: string): never => {
    throw new BadInput([{ severity: 'error', file: path, found, expected, mend }]);
  };
  const none = 'name a directory that `run --out` wrote';
  if (!existsSync(path)) return refuse('no such file', 'the manifest of a bundle', none);
  let manifest: Partial<Manifest> | null = null;
  try {
    manifest = JSON.parse(readFileSync(path, 'utf8')) as Partial<Manifest> | null;
  } catch (error) {
    return refuse(`text that is not JSON (${(error as Error).message})`, 'the manifest of a bundle', none);
  }
  if (manifest?.format !== formatName)
    return refuse(`format ${JSON.stringify(manifest?.format ?? null)}`, `format "${formatName}"`, none);
  if (manifest.version !== formatVersion)
    return refuse(
      `format version ${manifest.version}`,
      `format version ${formatVersion}`,
      'read it with the version of the tool that wrote it, or run the scenario again',
    );
  if (!Array.isArray(manifest.files) || !Array.isArray(manifest.columns) || manifest.wake === undefined)
    return refuse('a manifest without files, columns or wake', 'a whole manifest', none);
  return manifest as Manifest;
}
