/** A folder that is written where nothing lies: what is there was not asked for. */
import { existsSync, readdirSync } from 'node:fs';
import { BadInput } from '../../base/problem.ts';
import { onDisk } from '../../disk/on-disk.ts';

/** Throws BadInput where the folder holds files. */
export function refuseTaken(folder: string): void {
  if (!existsSync(folder) || onDisk(folder, () => readdirSync(folder)).length === 0) return;
  throw new BadInput([
    {
      severity: 'error',
      file: folder,
      found: 'a folder with files in it',
      expected: 'a name that is free, or an empty folder',
      mend: 'choose another name, or another folder with --out',
    },
  ]);
}
