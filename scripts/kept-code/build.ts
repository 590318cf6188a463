/**
 * The command and its run's thread as one script each, with the code that V8 makes of them, kept in `dist` for the Node that
 * built it: reading and compiling modules is most of what a short command costs. Any other Node, and programs, take the
 * modules. A package has none of it: it is built for every Node.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { whenAsked } from '../when-asked.ts';

const scripts = { command: 'src/cli/buswake.ts', 'run-thread': 'src/cli/apart/run-thread.ts' };

/** What it is tried on: all that these words go through is kept compiled. */
const words = ['run', 'pulse-train', '--set', 'duration=10 s'];

const own = (file: string): string => fileURLToPath(new URL(file, import.meta.url));

/** Below a `dist` that is whole otherwise; whole under another name first. */
export async function keepCode(dist: string): Promise<void> {
  const folder = join(dist, 'kept-code', `${process.version}-${process.arch}`);
  const part = `${folder}.part`;
  mkdirSync(part, { recursive: true });
  await buildScripts(part);
  for (const file of ['load.cjs', 'keep.cjs']) copyFileSync(own(file), join(part, file));
  // While code is kept, the run's thread is started so as to be kept too.
  writeFileSync(join(part, 'run-thread-start.cjs'), "require('./keep.cjs');\n");
  for (const more of [[], ['--json']])
    spawnSync(process.execPath, [join(part, 'keep.cjs'), ...words, ...more], { stdio: 'ignore' });
  for (const name of Object.keys(scripts))
    if (!existsSync(join(part, `${name}.code`))) throw new Error(`no code of ${name} was kept`);
  copyFileSync(own('run-thread-start.cjs'), join(part, 'run-thread-start.cjs'));
  rmSync(join(part, 'keep.cjs'));
  renameSync(part, folder);
}

async function buildScripts(folder: string): Promise<void> {
  await build({
    entryPoints: scripts,
    outdir: folder,
    outExtension: { '.js': '.cjs' },
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    external: ['piscina'],
    banner: { js: "const moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
    define: { 'import.meta.url': 'moduleUrl' },
    supported: { 'dynamic-import': false },
    minifyWhitespace: true,
    minifySyntax: true,
    lineLimit: 160,
    plugins: [whenAsked],
    logLevel: 'warning',
  });
}
