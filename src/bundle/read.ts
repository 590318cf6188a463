/** Reads a kept run back and recognises what was cut short or changed since. */
import { accessSync, constants, existsSync, readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { BadInput, type Problem } from '../base/problem.ts';
import { readBytes } from '../disk/read-file.ts';
import { changedSince } from './changed-since.ts';
import { decodeBundle, missing } from './decode.ts';
import { type Bundle, type Manifest, manifestName } from './format.ts';
import { readManifestText } from './manifest-text.ts';

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
  for (const entry of manifest.files) {
    const { name } = entry;
    const path = join(dir, name);
    if (statSync(path, { throwIfNoEntry: false })?.isFile() !== true) {
      problems.push({ ...missing(entry), file: path });
      continue;
    }
    const bytes = new Uint8Array(readBytes(path));
    files.set(name, bytes);
    problems.push(...changedSince(entry, bytes, path));
  }
  if (problems.length > 0) throw new BadInput(problems);
  return { manifest, files };
}

/** Files that lie in the bundle's directory and that its manifest does not know: a page, or what was put there. */
export function unlisted(dir: string, manifest: Manifest): string[] {
  const known = new Set([manifestName, ...manifest.files.map(({ name }) => name)]);
  return readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(dir, join(entry.parentPath, entry.name)))
    .filter((name) => !known.has(name))
    .sort();
}

function readManifest(dir: string): Manifest {
  const path = join(dir, manifestName);
  // A folder that may not be looked into is told as one by whoever opens the file.
  if (existsSync(path) || isShut(dir)) return readManifestText(new Uint8Array(readBytes(path)), path);
  throw new BadInput([
    {
      severity: 'error',
      file: path,
      found: 'no such file',
      expected: 'the manifest of a bundle',
      mend: 'name a directory that `run --out` wrote',
    },
  ]);
}

function isShut(dir: string): boolean {
  try {
    accessSync(dir, constants.X_OK);
    return false;
  } catch {
    return existsSync(dir);
  }
}
