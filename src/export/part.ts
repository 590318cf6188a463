/** A file or folder that is written under another name beside its own and gets that only when it is whole. */
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { clearLeftParts } from '../base/left-parts.ts';

export class Part {
  /** Where to write meanwhile. */
  readonly path: string;
  private readonly target: string;

  constructor(target: string) {
    this.target = resolve(target);
    this.path = `${this.target}.${process.pid}.part`;
    mkdirSync(dirname(this.target), { recursive: true });
    clearLeftParts(this.target);
    process.once('exit', this.drop);
  }

  /** Gives it its name, in place of what had it. */
  keep(): void {
    const old = `${this.target}.${process.pid}.old.part`;
    const replaces = existsSync(this.target);
    if (replaces) renameSync(this.target, old);
    try {
      renameSync(this.path, this.target);
    } catch (error) {
      if (replaces) renameSync(old, this.target);
      throw error;
    }
    rmSync(old, { recursive: true, force: true });
    process.off('exit', this.drop);
  }

  /** Leaves nothing of it. */
  readonly drop = (): void => {
    rmSync(this.path, { recursive: true, force: true });
    process.off('exit', this.drop);
  };
}
