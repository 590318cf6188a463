/** Inputs as a thread reads them from the disk: files that the plan has read already. */
import { readTextFile } from '../../disk/read-file.ts';
import { type InputSource, inputName } from '../../request/input-source.ts';
import { readPieces } from '../../request/read-pieces.ts';

export const disk: InputSource = {
  text: (path) => readTextFile(path),
  pieces: (path, take) => readPieces(path, inputName(path), take),
};
