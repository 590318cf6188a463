import type { Problem } from '../base/problem.ts';
import { type FileEntry, manifestName } from './format.ts';
import { sha256 } from './sum.ts';

/** What is wrong where the bytes of a file are not those that the manifest sums; nothing where they are. `file`: its name in problems. */
export function changedSince(entry: FileEntry, bytes: Uint8Array, file: string): Problem[] {
  if (bytes.length !== entry.bytes) return [differs(file, `${bytes.length} bytes`, `${entry.bytes} bytes`)];
  const sum = sha256(bytes);
  return sum === entry.sha256 ? [] : [differs(file, `SHA-256 ${sum}`, `SHA-256 ${entry.sha256}`)];
}

function differs(file: string, found: string, expected: string): Problem {
  return {
    severity: 'error',
    file,
    found,
    expected: `${expected}, as ${manifestName} says`,
    mend: 'the file was cut short or changed after it was written: run the scenario again with --out',
  };
}
