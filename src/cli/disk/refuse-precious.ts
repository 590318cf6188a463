/**
 * What --force may not write over: an input of the command itself, or a file that a kept run or study is made of. The one
 * is what the result rests on, the other is nothing without each of its files.
 */
import { existsSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { BadInput, type Problem } from '../../base/problem.ts';
import { manifestName } from '../../bundle/format.ts';
import { storeName } from '../../studies/bench/kept-lines.ts';

/** `targets`: what is to be written; `inputs`: what the command reads, `-` left aside. Throws BadInput with all of them. */
export function refusePrecious(targets: readonly string[], inputs: readonly string[]): void {
  const read = new Set(
    inputs.filter((path) => path !== '-' && existsSync(path)).map((path) => realpathSync(path)),
  );
  const problems = targets.filter(existsSync).flatMap((target) => {
    const whole = realpathSync(target);
    if (read.has(whole)) return [problem(target, 'a file that this command reads')];
    const kept = keptAround(whole);
    return kept === null ? [] : [problem(target, `a file of what is kept in ${kept}`)];
  });
  if (problems.length > 0) throw new BadInput(problems);
}

/** The folder of a kept run or study that a file lies in, itself or among its inputs; pages are made anew from it. */
function keptAround(file: string): string | null {
  if (file.endsWith('.html')) return null;
  const above = [dirname(file), dirname(dirname(file))];
  return above.find((dir) => [manifestName, storeName].some((name) => existsSync(join(dir, name)))) ?? null;
}

function problem(file: string, found: string): Problem {
  return {
    severity: 'error',
    file,
    found,
    expected: 'a name that is free, or a file that nothing rests on',
    mend: 'choose another name',
  };
}
