/** A run and a study as the command keeps them, made for trying, in a folder of their own. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { home } from '../../src/home.ts';

export type Kind = 'run' | 'study';

/** Short ones: what is tried is the keeping. */
const commands: Readonly<Record<Kind, readonly string[]>> = {
  run: ['run', 'single-step', '--set', 'duration=0.1 s'],
  study: [
    ...['spread', 'single-step', '--set', 'duration=0.1 s', '--samples', '8'],
    ...['--tolerance', 'trays.esr=normal by 10 %'],
  ],
};

export interface Kept {
  readonly kind: Kind;
  readonly dir: string;
  /** Every file by its path in `dir`. */
  readonly files: ReadonlyMap<string, Buffer>;
}

export function keep(kind: Kind, root: string): Kept {
  const dir = join(root, kind);
  const words = [join(home, 'scripts/buswake.mjs'), ...commands[kind], '--out', dir, '--quiet'];
  const { stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  const files = new Map(
    readdirSync(dir, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [relative(dir, path), readFileSync(path)]),
  );
  if (files.size < 5) throw new Error(`nothing was kept: ${stderr}`);
  return { kind, dir, files };
}
