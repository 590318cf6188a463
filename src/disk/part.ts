/**
 * A file or folder that is written under another name beside its own, and gets that only when it is whole and on the
 * disk: whoever looks meanwhile, or after a kill, finds the old one or the new one. What cannot be written is BadInput.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { clearLeftParts } from './left-parts.ts';
import { onDisk } from './on-disk.ts';
import { replaceable } from './replaceable.ts';

export class Part {
  /** Where to write meanwhile. */
  readonly path: string;
  /** As it was named. */
  private readonly named: string;
  private readonly target: string;

  /** `as`: what is written. */
  constructor(target: string, as: 'file' | 'folder') {
    this.named = target;
    this.target = replaceable(target, as);
    this.path = `${this.target}.${process.pid}.part`;
    onDisk(target, () => {
      mkdirSync(dirname(this.target), { recursive: true });
      clearLeftParts(this.target);
    });
    process.once('exit', this.drop);
  }

  /** Gives it its name, in place of what had it. */
  keep(): void {
    onDisk(this.named, () => {
      syncBelow(this.path);
      const old = `${this.target}.${process.pid}.old.part`;
      // A file goes over a file in one step; a folder has to make way first.
      const replaces = existsSync(this.target) && lstatSync(this.target).isDirectory();
      if (replaces) renameSync(this.target, old);
      try {
        renameSync(this.path, this.target);
      } catch (error) {
        if (replaces) renameSync(old, this.target);
        throw error;
      }
      rmSync(old, { recursive: true, force: true });
    });
    process.off('exit', this.drop);
  }

  /** Leaves nothing of it. */
  readonly drop = (): void => {
    if (existsSync(this.path)) rmSync(this.path, { recursive: true, force: true });
    process.off('exit', this.drop);
  };
}

/** A name may reach the disk before the bytes do: after a power cut it would stand over an empty file. */
function syncBelow(path: string): void {
  if (lstatSync(path).isDirectory()) for (const name of readdirSync(path)) syncBelow(join(path, name));
  const file = openSync(path, 'r');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
