/** Writes a file whole or not at all, and over another only when asked to. */
import { existsSync, writeFileSync } from 'node:fs';
import { BadInput } from '../base/problem.ts';
import { onDisk } from './on-disk.ts';
import { Part } from './part.ts';

/** In place of what had the name. Throws BadInput where it cannot be written. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const part = new Part(path);
  try {
    onDisk(path, () => writeFileSync(part.path, content));
    part.keep();
  } finally {
    part.drop();
  }
}

/** Throws BadInput where there is a file of that name and it was not said that it may be replaced. */
export function refuseExisting(file: string, force: boolean): void {
  if (force || !existsSync(file)) return;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: 'a file that exists already',
      expected: 'a name that is free, or --force',
      mend: 'choose another name, or give --force to replace it',
    },
  ]);
}
