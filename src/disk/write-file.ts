/** Writes a file whole or not at all, and over another only when asked to. */
import { existsSync, writeFileSync } from 'node:fs';
import { BadInput, type Problem } from '../base/problem.ts';
import { onDisk } from './on-disk.ts';
import { type Over, Part } from './part.ts';
import { replaceable } from './replaceable.ts';
import { uninterrupted } from './stop-signals.ts';

/** Throws BadInput where it cannot be written, or where something came to lie there that may not be replaced. */
export function writeWhole(
  path: string,
  content: string | Uint8Array,
  { force }: Over = { force: true },
): void {
  const part = new Part(path, 'file', { force });
  try {
    uninterrupted(() => {
      onDisk(path, () => writeFileSync(part.path, content));
      part.keep();
    });
  } finally {
    part.drop();
  }
}

/** Throws BadInput where there is a file of one of these names and it was not said that it may be replaced, or a folder. */
export function refuseExisting(files: readonly string[], force: boolean): void {
  const problems = files.flatMap((file): readonly Problem[] => {
    try {
      const place = replaceable(file, 'file');
      return force || !existsSync(place) ? [] : [existing(file)];
    } catch (error) {
      if (error instanceof BadInput) return error.problems;
      throw error;
    }
  });
  if (problems.length > 0) throw new BadInput(problems);
}

function existing(file: string): Problem {
  return {
    severity: 'error',
    file,
    found: 'a file that exists already',
    expected: 'a name that is free, or --force',
    mend: 'choose another name, or give --force to replace it',
  };
}
