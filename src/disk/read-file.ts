/** A file as a whole, with the sum of its bytes. `-` is standard input. */
import { createHash } from 'node:crypto';
import { closeSync, readFileSync } from 'node:fs';
import { BadInput } from '../base/problem.ts';
import { openInput, unreadable } from './open-input.ts';
import { eachPiece } from './pieces.ts';

/** No scenario, model, study or module is longer; a recording is, and is read in pieces. */
const longestText = 1 << 20;

export interface FileText {
  /** null where the bytes are none of a short text, for the reason in `unfit`. */
  readonly text: string | null;
  readonly unfit: string | null;
  /** In hexadecimal. */
  readonly sha256: string;
}

/** `takeBytes` gets the bytes themselves, valid until it returns. Throws BadInput where it cannot be read. */
export function readTextFile(path: string, takeBytes: (bytes: Uint8Array) => void = () => {}): FileText {
  const hash = createHash('sha256');
  const kept: Uint8Array[] = [];
  let length = 0;
  eachPiece(path, path, (bytes) => {
    hash.update(bytes);
    takeBytes(bytes);
    length += bytes.length;
    if (length > longestText) kept.length = 0;
    else kept.push(bytes.slice());
  });
  const sha256 = hash.digest('hex');
  if (length > longestText) return { text: null, unfit: 'longer than 1 MB', sha256 };
  const text = decoded(Buffer.concat(kept));
  if (text === null) return { text, unfit: 'bytes that are no text in UTF-8', sha256 };
  if (text.includes('\0')) return { text: null, unfit: 'zero bytes, so no text', sha256 };
  return { text, unfit: null, sha256 };
}

function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
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
