/**
 * What a killed process left of a file or folder that was being written beside `target`: `<name>.<pid>.part`, and, where
 * it was replacing what stood there, that under `<name>.<pid>.old.part`. Parts of processes that still run are theirs.
 */
import { existsSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { isRunning } from './is-running.ts';

/** Removes them; what was moved away to be replaced, and never was, gets its name back. */
export function clearLeftParts(target: string): void {
  const whole = resolve(target);
  const folder = dirname(whole);
  if (!existsSync(folder)) return;
  const name = `${basename(whole)}.`;
  for (const entry of readdirSync(folder)) {
    const made = entry.startsWith(name) ? /^(\d+)(\.old)?\.part$/.exec(entry.slice(name.length)) : null;
    if (made === null || isRunning(Number(made[1]))) continue;
    const path = join(folder, entry);
    if (made[2] !== undefined && !existsSync(whole)) renameSync(path, whole);
    else rmSync(path, { recursive: true, force: true });
  }
}
