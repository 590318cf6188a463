/**
 * What a killed process left of a file or folder that was being written beside `target`: `<name>.<pid>.buswake-part`,
 * and, where it was replacing what stood there, that under `<name>.<pid>.buswake-old`. Parts of processes that still run are
 * theirs, and what has no such name is somebody's own.
 */
import { existsSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { isRunning } from './is-running.ts';

/** Where this process writes what is to be `target`. */
export function partName(target: string): string {
  return `${target}.${process.pid}.buswake-part`;
}

/** Where this process puts what makes way. */
export function oldName(target: string): string {
  return `${target}.${process.pid}.buswake-old`;
}

export function isPartName(name: string): boolean {
  return /\.\d+\.buswake-(part|old)$/.test(name);
}

/** Removes them; what was moved away to be replaced, and never was, gets its name back. */
export function clearLeftParts(target: string): void {
  const whole = resolve(target);
  const folder = dirname(whole);
  if (!existsSync(folder)) return;
  const name = `${basename(whole)}.`;
  for (const entry of readdirSync(folder)) {
    const made = entry.startsWith(name) ? /^(\d+)\.buswake-(part|old)$/.exec(entry.slice(name.length)) : null;
    if (made === null || isRunning(Number(made[1]))) continue;
    const path = join(folder, entry);
    if (made[2] === 'old' && !existsSync(whole)) renameSync(path, whole);
    else removed(path);
  }
}

/** What is somebody else's stays: it is in nobody's way. */
function removed(path: string): void {
  try {
    rmSync(path, { recursive: true, force: true });
  } catch {}
}
