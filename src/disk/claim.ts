/**
 * A folder that one process writes to for a while, such as the trials of a study: a second one would mix its lines in.
 * The claim is a file with the number of the process; what a killed one left is taken over.
 */
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { isRunning } from './is-running.ts';
import { onDisk } from './on-disk.ts';

export const claimName = '.in-use';

/** Claims `dir`, which is made where it is not there, until the process ends. */
export function claim(dir: string): void {
  const path = join(dir, claimName);
  const holder = onDisk(dir, () => {
    mkdirSync(dir, { recursive: true });
    return holderOf(path);
  });
  if (holder !== null)
    throw new BadInput([
      {
        severity: 'error',
        file: dir,
        found: `a folder that process ${holder} is writing to`,
        expected: 'a folder of its own for each study that runs',
        mend: `wait for it, or choose another name; if no such process is yours, remove ${path}`,
      },
    ]);
  process.once('exit', () => rmSync(path, { force: true }));
}

/** The running process that holds the claim; null where it is now this one's. */
function holderOf(path: string): number | null {
  try {
    writeFileSync(path, `${process.pid}\n`, { flag: 'wx' });
    return null;
  } catch (error) {
    if (!existsSync(path)) throw error;
  }
  const other = Number.parseInt(readFileSync(path, 'utf8'), 10);
  if (other !== process.pid && isRunning(other)) return other;
  rmSync(path, { force: true });
  return holderOf(path);
}
