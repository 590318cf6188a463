/** The inputs of a kept run as a source to run it again from. Pure: a page can run from it as well. */

import { BadInput } from '../base/problem.ts';
import { shortText } from '../base/short-text.ts';
import { type InputSource, inputName } from '../request/input-source.ts';
import { PieceDecoder } from '../request/piece-decoder.ts';
import { bytesAtHand, isParquet, parquetPieces } from '../tables/rows/parquet-text.ts';
import type { ReadInput } from './pack-input.ts';

/** Bytes handed on at a time, as from a disk. */
const piece = 1 << 18;

export class KeptSource implements InputSource {
  readonly #inputs: ReadonlyMap<string, ReadInput>;
  readonly #asked = new Set<string>();

  constructor(inputs: readonly ReadInput[]) {
    this.#inputs = new Map(inputs.map((input) => [input.path, input]));
  }

  /** Paths that were asked for, in that order. */
  get asked(): readonly string[] {
    return [...this.#asked];
  }

  text(path: string): ReturnType<InputSource['text']> {
    const { bytes, sha256 } = this.#input(path);
    return { ...shortText(bytes), sha256 };
  }

  pieces(path: string, take: (text: string, fraction: number | null) => void): string {
    const { bytes, sha256 } = this.#input(path);
    if (isParquet(bytes)) {
      parquetPieces(bytesAtHand(bytes), inputName(path), take);
      return sha256;
    }
    const decoder = new PieceDecoder(inputName(path));
    for (let at = 0; at < bytes.length; at += piece) {
      const end = Math.min(at + piece, bytes.length);
      take(decoder.push(bytes.subarray(at, end)), end / bytes.length);
    }
    take(decoder.end(), null);
    return sha256;
  }

  #input(path: string): ReadInput {
    const input = this.#inputs.get(path);
    if (input === undefined) throw absent(path, [...this.#inputs.keys()]);
    this.#asked.add(path);
    return input;
  }
}

function absent(path: string, known: readonly string[]): BadInput {
  return new BadInput([
    {
      severity: 'error',
      file: path,
      found: `no input ${path} in the bundle`,
      expected: `one of its inputs: ${known.join(', ')}`,
      mend: 'the bundle was changed after it was written: run the scenario again with --out',
    },
  ]);
}
