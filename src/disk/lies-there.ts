import { lstatSync } from 'node:fs';

/** Whether anything has this name: a file, a folder, or a link, wherever that leads. */
export function liesThere(path: string): boolean {
  try {
    return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
  } catch {
    // A path through a file, or into a folder that may not be looked into: it is told when it is read.
    return false;
  }
}
