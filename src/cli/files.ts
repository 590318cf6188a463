/** Files for the scenario stage: text and sum of what stands on disk. `-` is standard input. */
import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { BadInput } from '../problem.ts';
import { readPieces } from './read-pieces.ts';

/** No scenario or model is longer: beyond it a file is a recording, of which the sum alone is wanted here. */
const longestText = 1 << 23;

/** Reads a text file; refuses what cannot be read, naming the path. */
export function readTextFile(path: string): { readonly text: string; readonly sha256: string } {
  let bytes: Buffer;
  try {
    if (path !== '-' && statSync(path).size > longestText) {
      return { text: '', sha256: readPieces(path, path, () => {}) };
    }
    bytes = readFileSync(path === '-' ? 0 : path);
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
        mend: 'mend the name or add the file',
      },
    ]);
  }
  return { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
}
