/** Whether the compiled kernel is that of the sources as they are: SHA-256 of every file it was made from, kept beside it. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The compiled kernel as a module, and the sums of its sources. */
export const made = { folder: 'src/engine/fast/made', module: 'kernel.ts', sources: 'sources.json' } as const;

/** What translates and compiles, beside the sources translated. */
const tools = [
  'package-lock.json',
  ...readdirSync('scripts/kernel', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `scripts/kernel/${name}`),
];

export type Sums = Readonly<Record<string, string>>;

export function sumsOf(sources: readonly string[]): Sums {
  return Object.fromEntries(
    [...sources, ...tools]
      .sort()
      .map((file) => [
        file,
        existsSync(file) ? createHash('sha256').update(readFileSync(file)).digest('hex') : 'gone',
      ]),
  );
}

/** Files that have changed since the kernel was compiled; its own module where it is missing. */
export function staleSources(): readonly string[] {
  const kept = join(made.folder, made.sources);
  if (!existsSync(kept) || !existsSync(join(made.folder, made.module)))
    return [join(made.folder, made.module)];
  const then = JSON.parse(readFileSync(kept, 'utf8')) as Sums;
  const now = sumsOf(Object.keys(then).filter((file) => !tools.includes(file)));
  return Object.keys({ ...then, ...now }).filter((file) => then[file] !== now[file]);
}
