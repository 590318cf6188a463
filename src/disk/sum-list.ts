/**
 * Sums of the files of a folder, listed beside them in the form of the coreutils, so that `sha256sum -c SHA256SUMS` reads
 * them as well. The last line is a comment with the sum of those before it: a list in which any byte has changed is
 * recognised as such. Sums find accidents; who changes a file on purpose can write its sum too.
 */
import { createHash } from 'node:crypto';
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput, type Problem } from '../base/problem.ts';
import { onDisk } from './on-disk.ts';
import { eachPiece } from './pieces.ts';
import { readBytes } from './read-file.ts';
import { writeWhole } from './write-file.ts';

export const sumListName = 'SHA256SUMS';

/** Lists the files of `dir` by these names, in their order, as they lie there now. */
export function writeSumList(dir: string, names: readonly string[]): void {
  const lines = names.map((name) => `${sumOfFile(join(dir, name))}  ${name}\n`).join('');
  writeWhole(join(dir, sumListName), `${lines}# ${sumOf(lines)}\n`);
}

/** Takes the list away while its files are written. */
export function dropSumList(dir: string): void {
  const path = join(dir, sumListName);
  onDisk(path, () => rmSync(path, { force: true }));
}

/** Throws BadInput with every file that is missing or not as it was listed; `mend`: what brings the folder in order. */
export function checkSumList(dir: string, mend: string): void {
  const path = join(dir, sumListName);
  if (!existsSync(path))
    throw new BadInput([differs(path, 'no such file', 'sums of what lies beside it, written last', mend)]);
  const text = readBytes(path).toString('latin1');
  const [, lines, own] = /^((?:[0-9a-f]{64} {2}[^\n]+\n)+)# ([0-9a-f]{64})\n$/.exec(text) ?? [];
  if (lines === undefined || own !== sumOf(lines))
    throw new BadInput([
      differs(
        path,
        'a list that does not match the sum in its last line',
        'the list as it was written',
        mend,
      ),
    ]);
  const problems = lines
    .trimEnd()
    .split('\n')
    .flatMap((line) => problemOf(dir, line, mend));
  if (problems.length > 0) throw new BadInput(problems);
}

function problemOf(dir: string, line: string, mend: string): Problem[] {
  const [expected, name] = [line.slice(0, 64), line.slice(66)];
  const path = join(dir, name);
  if (name.startsWith('/') || name.split('/').includes('..'))
    return [
      differs(join(dir, sumListName), `${name}, which leads out of the folder`, 'files beside it', mend),
    ];
  if (!existsSync(path)) return [differs(path, 'no such file', `a file that ${sumListName} lists`, mend)];
  const found = sumOfFile(path);
  return found === expected
    ? []
    : [differs(path, `SHA-256 ${found}`, `SHA-256 ${expected}, as ${sumListName} says`, mend)];
}

function differs(file: string, found: string, expected: string, mend: string): Problem {
  return { severity: 'error', file, found, expected, mend };
}

function sumOf(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

function sumOfFile(path: string): string {
  const hash = createHash('sha256');
  eachPiece(path, path, (bytes) => hash.update(bytes));
  return hash.digest('hex');
}
