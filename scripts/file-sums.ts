/** SHA-256 of files, by name: what something was made from, and whether that has changed. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';

export type Sums = Readonly<Record<string, string>>;

/** One that is gone has no sum, and says so. */
export function sumsOf(files: readonly string[]): Sums {
  return Object.fromEntries(
    [...files]
      .sort()
      .map((file) => [
        file,
        existsSync(file) ? createHash('sha256').update(readFileSync(file)).digest('hex') : 'gone',
      ]),
  );
}
