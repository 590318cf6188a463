/** Writes a page to the file that was named for it: whole or not at all, and over another only when asked to. */
import { existsSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { clearLeftParts } from '../../base/left-parts.ts';
import { BadInput } from '../../base/problem.ts';

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

/** Under a temporary name first, so that no half page is left behind. */
export function writePage(path: string, text: string): void {
  clearLeftParts(path);
  const fresh = `${path}.${process.pid}.part`;
  try {
    writeFileSync(fresh, text);
    renameSync(fresh, path);
  } catch (error) {
    rmSync(fresh, { force: true });
    throw error;
  }
}
