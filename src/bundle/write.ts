/** Keeps a run on disk: written whole under a temporary sibling name, then renamed. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { onDisk } from '../disk/on-disk.ts';
import { Part } from '../disk/part.ts';
import { refuseUnwritable } from '../disk/refuse-unwritable.ts';
import { uninterrupted } from '../disk/stop-signals.ts';
import { encodeBundle } from './encode.ts';
import { type Bundle, fileNames, formatName, inputsFolder, type Manifest, manifestName } from './format.ts';
import { manifestOf } from './manifest-of.ts';
import { manifestText } from './manifest-text.ts';

/** Files a bundle's directory may hold beside its own: what other commands put there. */
const companions = ['page.html'];

/**
 * Writes the bundle to `dir`. An existing directory is refused; with `force` it is replaced if it is a bundle
 * and holds nothing else. Throws BadInput; leaves no half directory behind.
 */
export function writeBundle(dir: string, bundle: Bundle, { force }: { readonly force: boolean }): void {
  const part = new Part(dir, 'folder', { force });
  try {
    checkReplaceable(dir, force);
    uninterrupted(() => {
      onDisk(dir, () => {
        mkdirSync(part.path);
        writeFiles(part.path, bundle);
      });
      part.keep();
    });
  } finally {
    part.drop();
  }
}

function writeFiles(dir: string, bundle: Bundle): void {
  const encoded = encodeBundle(bundle);
  mkdirSync(join(dir, inputsFolder));
  for (const [name, bytes] of encoded.files) writeFileSync(join(dir, name), bytes);
  writeFileSync(join(dir, manifestName), manifestText(manifestOf(bundle, encoded)));
}

/** Refuses a directory that `writeBundle` would refuse, so that a long run need not end in a refusal. */
export function checkTarget(dir: string, { force }: { readonly force: boolean }): void {
  checkReplaceable(dir, force);
  refuseUnwritable(dir);
}

function checkReplaceable(dir: string, force: boolean): void {
  const target = resolve(dir);
  if (!existsSync(target)) return;
  const refused = (found: string, mend: string): BadInput =>
    new BadInput([
      { severity: 'error', file: dir, found, expected: 'a name that is free, or a bundle and --force', mend },
    ]);
  const own = ownFiles(target);
  if (own === null)
    throw refused('something that is not a bundle', 'choose another name; it is never overwritten');
  if (!force)
    throw refused('a bundle that exists already', 'choose another name, or give --force to replace it');
  const known = new Set<string>([...own, ...fileNames, manifestName, inputsFolder, ...companions]);
  const strangers = readdirSync(target, { recursive: true, encoding: 'utf8' }).filter(
    (name) => !known.has(name),
  );
  if (strangers.length > 0)
    throw refused(
      `a bundle with other files in it: ${strangers.join(', ')}`,
      'move those files elsewhere first',
    );
}

/** The files that the manifest in the directory names, of whatever version it is; null where it is no bundle's. */
function ownFiles(target: string): string[] | null {
  try {
    const manifest: unknown = JSON.parse(readFileSync(join(target, manifestName), 'utf8'));
    const { format, files } = (manifest ?? {}) as Partial<Manifest>;
    return format === formatName && Array.isArray(files) ? files.map(({ name }) => name) : null;
  } catch {
    return null;
  }
}
