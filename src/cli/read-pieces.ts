import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { BadInput } from '../problem.ts';

/** Bytes read, summed, decoded and handed on at a time. */
const piece = 1 << 18;

/**
 * Reads a text file, or stdin for `-`, in pieces, each with the part of the file done by then (null where the
 * size is not known); gives the SHA-256 of its bytes. UTF-8, or UTF-16 with a byte order mark; else BadInput.
 */
export function readPieces(
  path: string,
  name: string,
  take: (text: string, fraction: number | null) => void,
): string {
  const file = opened(path, name);
  try {
    const size = fstatSync(file).size;
    const hash = createHash('sha256');
    const bytes = Buffer.allocUnsafe(piece);
    let decoder: TextDecoder | null = null;
    let done = 0;
    for (;;) {
      const count = readPiece(file, bytes, name);
      if (count === 0) break;
      const part = bytes.subarray(0, count);
      hash.update(part);
      decoder ??= decoderFor(part);
      done += count;
      take(decode(decoder, part, true, name), size > 0 ? done / size : null);
    }
    if (decoder !== null) take(decode(decoder, bytes.subarray(0, 0), false, name), null);
    return hash.digest('hex');
  } finally {
    if (path !== '-') closeSync(file);
  }
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

function decoderFor(first: Buffer): TextDecoder {
  const marked = first.length >= 2 ? first.readUInt16BE(0) : 0;
  const encoding = marked === 0xfffe ? 'utf-16le' : marked === 0xfeff ? 'utf-16be' : 'utf-8';
  return new TextDecoder(encoding, { fatal: true });
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

function decode(decoder: TextDecoder, part: Buffer, more: boolean, name: string): string {
  try {
    return decoder.decode(part, { stream: more });
  } catch {
    throw new BadInput([
      {
        severity: 'error',
        file: name,
        found: 'bytes that are not UTF-8: a binary file, or another encoding',
        expected: 'delimited text in UTF-8',
        mend: 'export the recording as CSV in UTF-8',
      },
    ]);
  }
}
