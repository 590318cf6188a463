import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { plainReading, RecordedReader } from '../loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import { BadInput } from '../problem.ts';
import type { RecordedReading } from '../scenario/scenario.ts';

/** Bytes decoded and handed on at a time. */
const piece = 1 << 20;

/** Reads a recorded load from a file, or from stdin for `-`. Missing, binary or unclear files are BadInput. */
export function readRecording(path: string, reading: RecordedReading = plainReading): RecordedLoad {
  const name = path === '-' ? 'stdin' : path;
  const bytes = readBytes(path, name);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const reader = new RecordedReader(name, reading);
  for (let at = 0; at < bytes.length; at += piece) {
    const part = bytes.subarray(at, at + piece);
    reader.push(decode(decoder, part, at + piece < bytes.length, name));
  }
  return reader.finish(sha256);
}

function readBytes(path: string, name: string): Buffer {
  try {
    return readFileSync(path === '-' ? 0 : path);
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    throw new BadInput([
      {
        severity: 'error',
        file: name,
        found: why === 'ENOENT' ? 'no such file' : `a file that cannot be read (${why})`,
        expected: 'a recorded load as delimited text',
        mend: 'check the path',
      },
    ]);
  }
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
