import { createHash } from 'node:crypto';
import { readSync } from 'node:fs';
import { eachPiece } from '../disk/pieces.ts';
import { bytesAtHand, isParquet, parquetPieces, type RandomBytes } from '../tables/rows/parquet-text.ts';
import { PieceDecoder } from './piece-decoder.ts';

/**
 * Reads a text file, or a Parquet file as the text that says the same, or stdin for `-`, in pieces, each with the part of
 * the file done by then (null where the size is not known); gives the SHA-256 of its bytes. UTF-8, or UTF-16 with a byte
 * order mark; else BadInput. `takeBytes` gets the bytes themselves, valid until it returns.
 */
export function readPieces(
  path: string,
  name: string,
  take: (text: string, fraction: number | null) => void,
  takeBytes: (bytes: Uint8Array) => void = () => {},
): string {
  const hash = createHash('sha256');
  const decoder = new PieceDecoder(name);
  let done = 0;
  let parquet = false;
  const typed: Uint8Array[] = [];
  eachPiece(
    path,
    name,
    (part, { size }) => {
      hash.update(part);
      takeBytes(part);
      if (done === 0) parquet = isParquet(part);
      done += part.length;
      // What a Parquet file holds stands at its end: it is read again from there; standard input is kept instead.
      if (!parquet) take(decoder.push(part), size > 0 ? done / size : null);
      else if (path === '-') typed.push(part.slice());
    },
    ({ file }) => {
      if (!parquet) take(decoder.end(), null);
      else parquetPieces(path === '-' ? bytesAtHand(Buffer.concat(typed)) : inFile(file, done), name, take);
    },
  );
  return hash.digest('hex');
}

function inFile(file: number, size: number): RandomBytes {
  return {
    size,
    read(from, to) {
      const bytes = Buffer.allocUnsafeSlow(Math.max(0, Math.min(to, size) - from));
      return bytes.subarray(0, readSync(file, bytes, 0, bytes.length, from));
    },
  };
}
