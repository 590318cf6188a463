/**
 * Starts a module of src fast. Node cannot run TypeScript, and a loader that transforms file by file costs a second a
 * start and as much again for every thread. So the command line and its threads are bundled once, beside the
 * installed packages, under a name made of every source file's size and time of change: an edit makes another name.
 * Where that cannot be written the loader does it, slower.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const src = dirname(fileURLToPath(import.meta.url));

/** What is started by itself: the command line, and what runs on threads. */
const entries = ['cli/buswake.ts', 'cli/run-thread.ts', 'studies/bench/work.ts', 'studies/gains/strip.ts'];

/** Bundles of earlier sources go when they are this old [ms]. */
const kept_ms = 7 * 24 * 3600 * 1000;

/** Imports `entry`, one of `entries`. */
export async function load(entry) {
  if (process.argv.includes('--debug')) process.setSourceMapsEnabled(true);
  let file;
  try {
    file = join(await bundled(), entry.replace(/\.ts$/, '.js'));
  } catch {
    const { register } = await import('tsx/esm/api');
    register();
    file = join(src, entry);
  }
  return await import(pathToFileURL(file).href);
}

/** Folder of the bundle of the sources as they are now. */
export async function bundled() {
  const home = join(dirname(src), 'node_modules', '.cache', 'buswake');
  const folder = join(home, nameOf());
  if (!existsSync(folder)) await bundle(home, folder);
  return folder;
}

function nameOf() {
  const sum = createHash('sha256').update(`${src} ${process.versions.node}`);
  for (const name of readdirSync(src, { recursive: true }).sort()) {
    if (!name.endsWith('.ts') && !name.endsWith('.mjs')) continue;
    const { mtimeMs, size } = statSync(join(src, name));
    sum.update(`\n${name} ${mtimeMs} ${size}`);
  }
  return sum.digest('hex').slice(0, 24);
}

/** Written whole under another name first: whoever comes second finds all of it or nothing. */
async function bundle(home, folder) {
  const { build } = await import('esbuild');
  mkdirSync(home, { recursive: true });
  for (const old of readdirSync(home)) {
    const path = join(home, old);
    if (Date.now() - statSync(path).mtimeMs > kept_ms) rmSync(path, { recursive: true, force: true });
  }
  const part = `${folder}.${process.pid}.${Math.random().toString(36).slice(2)}.part`;
  try {
    await build({
      entryPoints: entries.map((entry) => join(src, entry)),
      outbase: src,
      outdir: part,
      bundle: true,
      splitting: true,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      packages: 'external',
      sourcemap: 'linked',
      logLevel: 'silent',
      plugins: [whereItWas],
    });
    renameSync(part, folder);
  } catch (error) {
    rmSync(part, { recursive: true, force: true });
    if (!existsSync(folder)) throw error;
  }
}

/** Files beside a module are found from where the module was, not from the bundle. */
const whereItWas = {
  name: 'where-it-was',
  setup(build) {
    build.onLoad({ filter: /\.ts$/ }, async ({ path }) => {
      if (relative(src, path).startsWith('..')) return undefined;
      const { readFile } = await import('node:fs/promises');
      const text = await readFile(path, 'utf8');
      const contents = text.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href));
      return { contents, loader: 'ts' };
    });
  },
};
