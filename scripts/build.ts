/**
 * Builds what is run: the compiled kernel, then `dist` with the command line and what runs on threads as plain
 * JavaScript. `npm ci` does it, by `prepare`; `npm run build` after a change of the sources.
 */
import { existsSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { builtFrom, sumOfSource } from '../src/bundle/build.ts';
import { buildKernel } from './kernel/build.ts';

/** What is started by itself. */
const entries = ['cli/buswake.ts', 'cli/apart/run-thread.ts', 'studies/bench/work.ts'];

/** Whole under another name first, then renamed: who starts meanwhile hardly ever finds none. */
export async function buildAll(): Promise<void> {
  await buildKernel();
  const part = `dist.${process.pid}.part`;
  await build({
    entryPoints: entries.map((entry) => `src/${entry}`),
    outbase: 'src',
    outdir: part,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // What finds files of its own by where it stands.
    external: ['esbuild', 'piscina'],
    // Packages that are no modules ask for Node's own ones by a function that a module has not.
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
    sourcemap: 'linked',
    logLevel: 'warning',
  });
  writeFileSync(`${part}/${builtFrom}`, JSON.stringify({ source_sha256: sumOfSource('.') }));
  const old = `dist.old.${process.pid}.part`;
  if (existsSync('dist')) renameSync('dist', old);
  renameSync(part, 'dist');
  rmSync(old, { recursive: true, force: true });
}

if (import.meta.url === `file://${process.argv[1]}`) await buildAll();
