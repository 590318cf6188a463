import { isAbsolute, relative } from 'node:path';

/**
 * What a file named on the command line is called from here on: its path from the working folder. Reports and
 * bundles then say nothing of where this machine keeps its folders. `-`, standard input, stays, and so do devices.
 */
export function fromHere(path: string): string {
  return isAbsolute(path) && !path.startsWith('/dev/') ? relative(process.cwd(), path) : path;
}
