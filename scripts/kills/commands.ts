/** Commands that keep something, and how it is seen whether what lies there is whole. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { readBundle } from '../../src/bundle/read.ts';
import { refuseChangedStudy } from '../../src/cli/disk/study-whole.ts';
import { home } from '../../src/home.ts';
import { readStore, storeName } from '../../src/studies/bench/kept-lines.ts';

export const script = join(home, 'scripts/buswake.mjs');

export interface Killable {
  readonly called: string;
  /** What the command is typed with, its output in `root`. */
  words(root: string): readonly string[];
  /** Said again after a kill. */
  again(root: string): readonly string[];
  /** Carries it out once, undisturbed: what others are compared with. */
  prepare(root: string): void;
  /** Throws where what lies there is neither whole nor absent. */
  check(root: string): void;
  /** Sum of what is there when the command has come to its end. */
  sum(root: string): string;
  /** Makes room for the next time. */
  clear(root: string): void;
}

const run = ['run', 'single-step', '--set', 'duration=0.3 s'];
const spread = [
  ...['spread', 'single-step', '--set', 'duration=0.2 s', '--samples', '6', '--workers', '2'],
  ...['--tolerance', 'trays.esr=normal by 10 %'],
];

export const commands: readonly Killable[] = [
  killable('run', 'streams.f64', (out) => [...run, '--out', out], {
    check: readIfThere(readBundle),
  }),
  killable('run --force', 'streams.f64', (out) => [...run, '--out', out, '--force'], {
    check: readIfThere(readBundle),
    stays: true,
  }),
  killable('spread', 'SHA256SUMS', (out) => [...spread, '--out', out], {
    again: (out) => [...spread, '--out', out, existsSync(join(out, storeName)) ? '--resume' : '--quiet'],
    check: (out) => {
      // A kill may cut the last line short, which reading drops; it spoils none.
      if (existsSync(join(out, storeName)) && readStore(join(out, storeName)).spoilt.length > 0)
        throw new Error('lines of the store are not as they were written');
      if (existsSync(join(out, 'SHA256SUMS'))) refuseChangedStudy(out);
    },
  }),
  killable('view', 'page.html', (out) => ['view', out], {
    first: (out) => [...run, '--out', out],
    check: readIfThere(readBundle),
    stays: true,
  }),
  killable('export', 'streams.csv', (out) => ['export', `${out}-of`, '--out', out], {
    first: (out) => [...run, '--out', `${out}-of`],
    check: () => {},
  }),
];

interface Means {
  readonly first?: (out: string) => readonly string[];
  readonly again?: (out: string) => readonly string[];
  readonly check: (out: string) => void;
  /** What was there before stays there. */
  readonly stays?: boolean;
}

/** `whole`: the file by whose sum one end is compared with another. */
function killable(
  called: string,
  whole: string,
  words: (out: string) => readonly string[],
  { first, again, check, stays }: Means,
): Killable {
  const at = (root: string): string => join(root, called.replaceAll(' ', ''));
  const carriedOut = (typed: readonly string[]): void => {
    const { stderr, status } = spawnSync(process.execPath, [script, ...typed], { encoding: 'utf8' });
    // 3: refused, 1: a mistake of ours; others are verdicts.
    if (status === null || status === 3 || status === 1)
      throw new Error(`${typed.join(' ')} ended with ${status}: ${stderr}`);
  };
  const clear = (root: string): void => {
    if (stays !== true) rmSync(at(root), { recursive: true, force: true });
  };
  return {
    called,
    words: (root) => words(at(root)),
    again: (root) => (again ?? words)(at(root)),
    prepare(root) {
      if (first !== undefined) carriedOut(first(at(root)));
      carriedOut(words(at(root)));
    },
    check: (root) => check(at(root)),
    sum: (root) =>
      createHash('sha256')
        .update(readFileSync(join(at(root), whole)))
        .digest('hex'),
    clear,
  };
}

function readIfThere(read: (dir: string) => unknown): (dir: string) => void {
  return (dir) => {
    if (existsSync(dir)) read(dir);
  };
}
