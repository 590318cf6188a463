import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { BadInput } from '../base/problem.ts';
import { bytesAtHand, isParquet, parquetPieces, type RandomBytes } from '../tables/rows/parquet-text.ts';
import { PieceDecoder } from './piece-decoder.ts';

/** Bytes read, summed, decoded and handed on at a time. */
const piece = 1 << 18;

/**
 * Reads a text file, or a Parquet file as the text that says the same, or stdin for `-`, in pieces, each with the part of the file done by then (null where the
 * size is not known); gives the SHA-256 of its bytes. UTF-8, or UTF-16 with a byte order mark; else BadInput. `takeBytes`
 * gets the bytes themselves, valid until it returns.
 */
export function readPieces(
  path: string,
  name: string,
  take: (text: string, fraction: number | null) => void,
  takeBytes: (bytes: Uint8Array) => void = () => {},
): string {
  const file = opened(path, name);
  try {
    const { size } = fstatSync(file);
    const hash = createHash('sha256');
    const bytes = Buffer.allocUnsafe(piece);
    const decoder = new PieceDecoder(name);
    let done = 0;
    let parquet = false;
    const typed: Uint8Array[] = [];
    for (;;) {
      const count = readPiece(file, bytes, name);
      if (count === 0) break;
      const part = bytes.subarray(0, count);
      hash.update(part);
      takeBytes(part);
      if (done === 0) parquet = isParquet(part);
      done += count;
      // What a Parquet file holds stands at its end: it is read again from there; standard input is kept instead.
      if (!parquet) take(decoder.push(part), size > 0 ? done / size : null);
      else if (path === '-') typed.push(part.slice());
    }
    if (parquet)
      parquetPieces(path === '-' ? bytesAtHand(Buffer.concat(typed)) : onDisk(file, done), name, take);
    else take(decoder.end(), null);
    return hash.digest('hex');
  } finally {
    if (path !== '-') closeSync(file);
  }
}

function onDisk(file: number, size: number): RandomBytes {
  return {
    size,
    read(from, to) {
      const bytes = Buffer.allocUnsafeSlow(Math.max(0, Math.min(to, size) - from));
      return bytes.subarray(0, readSync(file, bytes, 0, bytes.length, from));
    },
  };
}

function opened(path: string, name: string): number {
  try {
    return path === '-' ? 0 : openSync(path, 'r');
  } catch (error) {
    throw unreadable(error, name);
  }
}

/** Fills `bytes` as far as the file goes. Standard input may have nothing yet, or end with an error of its own. */
function readPiece(file: number, bytes: Buffer, name: string): number {
  let count = 0;
  while (count < bytes.length) {
    try {
      const got = readSync(file, bytes, count, bytes.length - count, null);
      if (got === 0) break;
      count += got;
    } catch (error) {
      const code = codeOf(error);
      if (code === 'EOF') break;
      if (code !== 'EAGAIN') throw unreadable(error, name);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
    }
  }
  return count;
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
}

function unreadable(error: unknown, name: string): BadInput {
  const why = codeOf(error);
  return new BadInput([
    {
      severity: 'error',
      file: name,
      found: why === 'ENOENT' ? 'no such file' : `a file that cannot be read (${why})`,
      expected: 'a recording as delimited text',
      mend: 'check the path',
    },
  ]);
}
