/** Whether something can be written at a place, before hours go into what is to be written there. */
import { mkdirSync, rmdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { partName } from './left-parts.ts';
import { liesThere } from './lies-there.ts';
import { onDisk } from './on-disk.ts';
import { replaceable } from './replaceable.ts';

/**
 * Throws BadInput where the nearest folder above `target` that exists is none, or nothing can be made in it: permissions
 * alone do not tell. What is made for it, named as a part of the target, is gone again.
 */
export function refuseUnwritable(target: string): void {
  const whole = replaceable(target, 'folder');
  let folder = dirname(whole);
  while (!liesThere(folder)) folder = dirname(folder);
  const probe = partName(join(folder, basename(whole)));
  onDisk(target, () => {
    // A link that leads nowhere, or to itself, lies there and is no folder.
    statSync(folder);
    mkdirSync(probe);
    rmdirSync(probe);
  });
}
