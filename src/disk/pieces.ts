/** A file, or standard input for `-`, as bytes in pieces. */
import { closeSync, readSync } from 'node:fs';
import { type OpenInput, openInput, unreadable } from './open-input.ts';

/** Bytes read and handed on at a time. */
const pieceLength = 1 << 18;

/**
 * `take` gets each piece, valid until it returns, and the open file, which can be read again from any place unless it is
 * standard input; where it says `false` no more is read. Throws BadInput where it cannot be read.
 */
export function eachPiece(
  path: string,
  name: string,
  take: (bytes: Uint8Array, input: OpenInput) => unknown,
  last: (input: OpenInput) => void = () => {},
): void {
  const input = openInput(path, name);
  try {
    // No Buffer: a slice of one is no copy, and what is taken of a piece would change with the next.
    const bytes = new Uint8Array(pieceLength);
    for (;;) {
      const count = filled(input.file, bytes, name);
      if (count === 0) break;
      if (take(bytes.subarray(0, count), input) === false) break;
    }
    last(input);
  } finally {
    if (path !== '-') closeSync(input.file);
  }
}

/** Fills `bytes` as far as the file goes. Standard input may have nothing yet, or end with an error of its own. */
function filled(file: number, bytes: Uint8Array, name: string): number {
  let count = 0;
  while (count < bytes.length) {
    try {
      const got = readSync(file, bytes, count, bytes.length - count, null);
      if (got === 0) break;
      count += got;
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : null;
      if (code === 'EOF') break;
      if (code !== 'EAGAIN') throw unreadable(error, name);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
    }
  }
  return count;
}
