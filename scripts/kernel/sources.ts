/** Whether a compiled kernel is that of the sources as they are: SHA-256 of every file it was made from, kept beside it. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Sums, sumsOf } from '../file-sums.ts';

/** A kernel: the module that names its functions, and the folder that holds it compiled. */
export interface KernelPlace {
  readonly entry: string;
  readonly folder: string;
}

/** What is compiled: what the engine does at every step, and the loops over dense matrices of the linear model. */
export const kernels: readonly KernelPlace[] = [
  { entry: 'src/engine/kernel.ts', folder: 'src/engine/fast/made' },
  { entry: 'src/dense/kernel.ts', folder: 'src/dense/made' },
];

/** The compiled kernel as a module, its functions to be linked, and the sums of its sources. */
export const made = { module: 'kernel.ts', templates: 'templates.ts', sources: 'sources.json' } as const;

/** What translates and compiles, beside the sources translated. */
const tools = [
  'package-lock.json',
  ...readdirSync('scripts/kernel', { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `scripts/kernel/${name}`),
];

/** Sums of sources, and of what compiles them. */
export function sumsWithTools(sources: readonly string[]): Sums {
  return sumsOf([...sources, ...tools]);
}

/** Files that have changed since a kernel was compiled; its own module where it is missing. */
export function staleSources({ folder }: KernelPlace): readonly string[] {
  const kept = join(folder, made.sources);
  if (!existsSync(kept) || !existsSync(join(folder, made.module))) return [join(folder, made.module)];
  const then = JSON.parse(readFileSync(kept, 'utf8')) as Sums;
  const now = sumsWithTools(Object.keys(then).filter((file) => !tools.includes(file)));
  return Object.keys({ ...then, ...now }).filter((file) => then[file] !== now[file]);
}
