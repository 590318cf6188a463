/**
 * A file or folder that is written under another name beside its own, and gets that only when it is whole and on the
 * disk: whoever looks meanwhile, or after a kill, finds the old one or the new one. What cannot be written is BadInput.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { BadInput } from '../base/problem.ts';
import { clearLeftParts, oldName, partName } from './left-parts.ts';
import { onDisk } from './on-disk.ts';
import { replaceable } from './replaceable.ts';

/** `force`: when it is kept it may replace what lies there then; without, what came to lie there meanwhile stays. */
export interface Over {
  readonly force: boolean;
}

export class Part {
  /** Where to write meanwhile. */
  readonly path: string;
  /** As it was named. */
  private readonly named: string;
  private readonly target: string;
  private readonly force: boolean;

  /** `as`: what is written. */
  constructor(target: string, as: 'file' | 'folder', { force }: Over) {
    this.named = target;
    this.force = force;
    this.target = replaceable(target, as);
    this.path = partName(this.target);
    onDisk(target, () => {
      mkdirSync(dirname(this.target), { recursive: true });
      clearLeftParts(this.target);
    });
    process.once('exit', this.drop);
  }

  /** Gives it its name. Throws BadInput where something else got it meanwhile and may not be replaced. */
  keep(): void {
    onDisk(this.named, () => {
      syncBelow(this.path);
      if (this.force) this.replace();
      else this.keepOverNothing();
    });
    process.off('exit', this.drop);
  }

  /** A link to a file is refused where its name is taken, a folder takes none but that of an empty one. */
  private keepOverNothing(): void {
    try {
      if (lstatSync(this.path).isDirectory()) renameSync(this.path, this.target);
      else {
        linkSync(this.path, this.target);
        rmSync(this.path);
      }
    } catch (error) {
      if (existsSync(this.target)) throw this.taken();
      // Not every file system has links.
      if (!isWithoutLinks(error)) throw error;
      renameSync(this.path, this.target);
    }
  }

  private replace(): void {
    const old = oldName(this.target);
    // A file goes over a file in one step; a folder has to make way first.
    const makesWay = existsSync(this.target) && lstatSync(this.target).isDirectory();
    if (makesWay) renameSync(this.target, old);
    try {
      renameSync(this.path, this.target);
    } catch (error) {
      if (makesWay) renameSync(old, this.target);
      throw error;
    }
    rmSync(old, { recursive: true, force: true });
  }

  private taken(): BadInput {
    return new BadInput(
      [
        {
          severity: 'error',
          file: this.named,
          found: 'something that came to lie there meanwhile',
          expected: 'a name that stays free until the end',
          mend: 'choose another name, and run it again',
        },
      ],
      'Nothing was kept.',
    );
  }

  /** Leaves nothing of it. */
  readonly drop = (): void => {
    if (existsSync(this.path)) rmSync(this.path, { recursive: true, force: true });
    process.off('exit', this.drop);
  };
}

function isWithoutLinks(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return ['EPERM', 'ENOTSUP', 'ENOSYS', 'EOPNOTSUPP'].includes(code);
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
