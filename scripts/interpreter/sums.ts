/** What the built interpreter depends on: the packages as locked, and what builds it. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';

export function sumsNow(): string {
  const files = [
    'package-lock.json',
    ...readdirSync('scripts/interpreter').map((name) => `scripts/interpreter/${name}`),
  ];
  return JSON.stringify(
    Object.fromEntries(
      files.sort().map((file) => [file, createHash('sha256').update(readFileSync(file)).digest('hex')]),
    ),
    null,
    1,
  );
}
