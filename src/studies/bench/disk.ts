/** Inputs as a thread reads them from the disk: files that the plan has read already. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { type InputSource, inputName } from '../../request/input-source.ts';
import { readPieces } from '../../request/read-pieces.ts';

export const disk: InputSource = {
  text(path) {
    const bytes = readFileSync(path);
    return { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
  },
  pieces: (path, take) => readPieces(path, inputName(path), take),
};
