import { plainReading, RecordedReader } from '../loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import type { RecordedReading } from '../scenario/scenario.ts';
import { readPieces } from './read-pieces.ts';

/** Told while a long file is read: rows so far, and the part of the file where its size is known. */
export type ReadingProgress = (rows: number, fraction: number | null) => void;

/**
 * Reads a recorded load from a file, or from stdin for `-`, piece by piece: neither text nor rows are kept. UTF-8,
 * or UTF-16 with a byte order mark. Missing, binary or unclear files are BadInput.
 */
export function readRecording(
  path: string,
  reading: RecordedReading = plainReading,
  onProgress: ReadingProgress = () => {},
): RecordedLoad {
  const name = path === '-' ? 'stdin' : path;
  const reader = new RecordedReader(name, reading);
  const sha256 = readPieces(path, name, (text, fraction) => {
    reader.push(text);
    onProgress(reader.rowsCount, fraction);
  });
  return reader.finish(sha256);
}
