/** What may be written in place of: nothing, a file or a folder. A device written over by name is gone for everybody. */
import { accessSync, constants, lstatSync, readlinkSync, realpathSync, type Stats, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { liesThere } from './lies-there.ts';

/**
 * The place that `target` names, through a link that it may be. Throws BadInput where that is neither file nor folder, and
 * where a folder lies there and a file is to be written: with it all that it holds would be gone.
 */
export function replaceable(target: string, by: 'file' | 'folder'): string {
  const whole = resolve(target);
  const expected = `a name that is free${by === 'file' ? '' : ', an empty folder'} or ${by === 'file' ? 'a file' : 'a kept run'}`;
  const refused = (found: string, mend: string): BadInput =>
    new BadInput([{ severity: 'error', file: target, found, expected, mend }]);
  if (target.trim() === '') throw refused('a blank name', 'name a place');
  if (!liesThere(whole)) return whole;
  const there = statOf(whole);
  if (there === null) throw refused('a link that leads nowhere', 'remove the link, or name its place');
  if (namesOpenFile(whole))
    throw refused('what is open here, by its number', 'name its place, or redirect standard output');
  if (!there.isFile() && !there.isDirectory())
    throw refused('a device, a pipe or a socket', 'choose a name that is free');
  if (by === 'file' && there.isDirectory()) throw refused('a folder', 'name a file in it, or one beside it');
  if (there.isDirectory() && !isOurs(whole))
    throw refused('a folder that you may not write to', 'choose another name');
  return realpathSync(whole);
}

/** What another user holds in a folder cannot be removed, though its name can be taken. */
function isOurs(folder: string): boolean {
  try {
    accessSync(folder, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** `/dev/stdout` and its like: a file put in its place is not the one that the shell holds open. */
function namesOpenFile(whole: string): boolean {
  if (realpathSync(dirname(whole)).startsWith('/proc/')) return true;
  return (
    lstatSync(whole).isSymbolicLink() && resolve(dirname(whole), readlinkSync(whole)).startsWith('/proc/')
  );
}

function statOf(path: string): Stats | null {
  try {
    return statSync(path);
  } catch {
    return null;
  }
}
