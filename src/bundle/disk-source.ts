/** Inputs from the disk, or from standard input for `-`; remembers what was read, so that a run can be kept with it. */

import { BadInput } from '../base/problem.ts';
import { readBytes, readTextFile } from '../disk/read-file.ts';
import { type InputSource, inputName } from '../request/input-source.ts';
import { readPieces } from '../request/read-pieces.ts';
import type { Files } from '../scenario/text/desk.ts';
import { builtTree } from './built-trees.ts';
import type { KeptInput } from './format.ts';
import { packInput } from './pack-input.ts';
import { sha256 } from './sum.ts';

export class DiskSource implements InputSource {
  readonly #keeps: boolean;
  readonly #sums = new Map<string, string>();
  /** Standard input can be read once only. */
  readonly #stdin: Uint8Array[] = [];

  /** `keeps`: `kept` will be asked for. */
  constructor({ keeps }: { readonly keeps: boolean } = { keeps: false }) {
    this.#keeps = keeps;
  }

  text(path: string): ReturnType<Files> {
    const copies = path === '-' && this.#keeps;
    const read = readTextFile(path, (bytes) => {
      if (copies) this.#stdin.push(bytes.slice());
    });
    return { ...this.#noted(path, read), tree: builtTree(read.sha256) };
  }

  pieces(path: string, take: (text: string, fraction: number | null) => void): string {
    const copies = path === '-' && this.#keeps;
    const sum = readPieces(path, inputName(path), take, (bytes) => {
      if (copies) this.#stdin.push(bytes.slice());
    });
    return this.#noted(path, { sha256: sum }).sha256;
  }

  /** Every input that was read, as a bundle keeps it, in the order of reading. Throws BadInput where one changed since. */
  kept(): KeptInput[] {
    return [...this.#sums].map(([path, sum], k) => {
      const bytes = path === '-' ? Buffer.concat(this.#stdin) : readBytes(path);
      if (sha256(bytes) !== sum) throw changedMeanwhile(path);
      return packInput({ path, sha256: sum, bytes }, k + 1);
    });
  }

  #noted<T extends { readonly sha256: string }>(path: string, read: T): T {
    if (!this.#sums.has(path)) this.#sums.set(path, read.sha256);
    return read;
  }
}

function changedMeanwhile(path: string): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file: path,
      found: 'a file that changed while it was read',
      expected: 'inputs that stay as they are until the run begins',
      mend: 'run it again when the file is no longer written to',
    },
  ]);
}
