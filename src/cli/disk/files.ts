/** Files for the scenario stage: text and sum of what stands on disk. `-` is standard input. */
import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { BadInput } from '../../base/problem.ts';
import { readPieces } from '../../request/read-pieces.ts';

/** No scenario or model is longer: beyond it a file is a recording, of which the sum alone is wanted here. */
const longestText = 1 << 23;

/** Reads a text file; refuses what cannot be read, naming the path. */
export function readTextFile(path: string): { readonly text: string; readonly sha256: string } {
  if (path !== '-' && sizeOf(path) > longestText)
    return { text: '', sha256: readPieces(path, path, () => {}) };
  const bytes = readBytes(path);
  return { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** The bytes of a file; refuses what cannot be read, naming the path. */
export function readBytes(path: string): Buffer {
  return named(path, () => readFileSync(path === '-' ? 0 : path));
}

function sizeOf(path: string): number {
  return named(path, () => statSync(path).size);
}

function named<T>(path: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const found =
      code === 'ENOENT' ? `no file ${path}` : code === 'EISDIR' ? `${path}, a folder` : `${path} (${code})`;
    throw new BadInput([
      {
        severity: 'error',
        file: path,
        found,
        expected: 'a file that can be read',
        mend: 'correct the name or add the file',
      },
    ]);
  }
}
