import { RecordedReader } from '../loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import type { RecordedReading } from '../scenario/scenario.ts';
import { type InputSource, inputName } from './input-source.ts';

/** Told while a long file is read: its path, rows so far, and the part of it done where its size is known. */
export type ReadingProgress = (path: string, rows: number, fraction: number | null) => void;

/** Reads a recorded load piece by piece: neither text nor rows are kept. What is missing or unclear is BadInput. */
export function readLoad(
  source: InputSource,
  path: string,
  reading: RecordedReading,
  onProgress: ReadingProgress = () => {},
): RecordedLoad {
  const reader = new RecordedReader(inputName(path), reading);
  const sha256 = source.pieces(path, (text, fraction) => {
    reader.push(text);
    onProgress(path, reader.rowsCount, fraction);
  });
  return reader.finish(sha256);
}
