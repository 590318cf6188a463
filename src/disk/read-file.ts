/** A file as a whole, with the sum of its bytes. `-` is standard input. */
import { createHash } from 'node:crypto';
import { closeSync, readFileSync } from 'node:fs';
import { BadInput } from '../base/problem.ts';
import { longestText, type ShortText, shortText, tooLong } from '../base/short-text.ts';
import { openInput, unreadable } from './open-input.ts';
import { eachPiece } from './pieces.ts';

export type FileText = ShortText & {
  /** In hexadecimal; of a file that is too long to be a text of what was read of it. */
  readonly sha256: string;
};

/** What is too long is not read to its end: standard input may have none. `takeBytes` gets the bytes themselves, valid until it returns. Throws BadInput where it cannot be read. */
export function readTextFile(path: string, takeBytes: (bytes: Uint8Array) => void = () => {}): FileText {
  const hash = createHash('sha256');
  const kept: Uint8Array[] = [];
  let length = 0;
  eachPiece(path, path, (bytes) => {
    hash.update(bytes);
    takeBytes(bytes);
    length += bytes.length;
    if (length > longestText) return false;
    kept.push(bytes.slice());
    return true;
  });
  const read = length > longestText ? tooLong : shortText(Buffer.concat(kept));
  return { ...read, sha256: hash.digest('hex') };
}

/** The same, where only a short text can be meant: anything else is refused. */
export function readShortText(path: string): { readonly text: string; readonly sha256: string } {
  const { text, unfit, sha256 } = readTextFile(path);
  if (text !== null) return { text, sha256 };
  throw new BadInput([
    {
      severity: 'error',
      file: path,
      found: `${path}, ${unfit}`,
      expected: 'a text in UTF-8 of at most 1 MB',
      mend: 'name the file that was meant, or save it as UTF-8',
    },
  ]);
}

/** The bytes of a file of any length. Throws BadInput where it cannot be read. */
export function readBytes(path: string): Buffer {
  const { file } = openInput(path);
  try {
    return readFileSync(file);
  } catch (error) {
    throw unreadable(error, path);
  } finally {
    if (path !== '-') closeSync(file);
  }
}
