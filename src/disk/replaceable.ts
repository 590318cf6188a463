/** What may be written in place of: nothing, a file or a folder. A device written over by name is gone for everybody. */
import { realpathSync, type Stats, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { liesThere } from './lies-there.ts';

/**
 * The place that `target` names, through a link that it may be. Throws BadInput where that is neither file nor folder, and
 * where a folder lies there and a file is to be written: with it all that it holds would be gone.
 */
export function replaceable(target: string, by: 'file' | 'folder'): string {
  const whole = resolve(target);
  if (!liesThere(whole)) return whole;
  const there = statOf(whole);
  if (there === null)
    throw refused(target, 'a link that leads nowhere', 'remove the link, or name its place');
  if (!there.isFile() && !there.isDirectory())
    throw refused(target, 'a device, a pipe or a socket', 'choose a name that is free');
  if (by === 'file' && there.isDirectory())
    throw refused(target, 'a folder', 'name a file in it, or one beside it');
  return realpathSync(whole);
}

function statOf(path: string): Stats | null {
  try {
    return statSync(path);
  } catch {
    return null;
  }
}

function refused(file: string, found: string, mend: string): BadInput {
  return new BadInput([
    { severity: 'error', file, found, expected: 'a name that is free, a file or a folder', mend },
  ]);
}
