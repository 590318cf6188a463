/**
 * Builds what is run: the compiled kernels, the laws in C, then `dist` with the command line and what runs on threads as plain
 * JavaScript, the parts of pages, the schemas that editors check files by, the trees of shipped files, and the licences of what is in them. `npm ci` does it, by `prepare`; `npm run build`
 * after a change of the sources.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Metafile } from 'esbuild';
import { builtFrom, sumOfSource } from '../src/bundle/build.ts';
import { builtTreesFile } from '../src/bundle/built-trees.ts';
import { schemaDocuments } from '../src/schema/schemas.ts';
import { builtTrees } from './built-trees.ts';
import { buildLaws } from './c99/build.ts';
import { sumsOf } from './file-sums.ts';
import { buildInterpreter } from './interpreter/build.ts';
import { keepCode } from './kept-code/build.ts';
import { buildKernels } from './kernel/build.ts';
import { buildBrowserLibrary } from './library.ts';
import { licencesText, licensedIn } from './licences.ts';
import { buildPages } from './pages.ts';
import { buildWhenAsked, whenAsked } from './when-asked.ts';

/** What is started by itself. */
const entries = ['cli/buswake.ts', 'cli/apart/run-thread.ts', 'studies/bench/work.ts', 'library/node.ts'];

/** All that it is made of, and what makes it. */
function sumOfAll(): string {
  const files = ['src', 'web', 'scripts', 'models', 'scenarios'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(ts|js|cjs|html|css|yaml)$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  const sums = JSON.stringify(sumsOf(['package.json', 'package-lock.json', ...files]));
  return createHash('sha256').update(sums).digest('hex');
}

/** Builds it where it is not there, or something that it is made of has changed since. */
export async function buildWhereChanged(): Promise<void> {
  const kept = join('dist', builtFrom);
  const before = existsSync(kept) ? (JSON.parse(readFileSync(kept, 'utf8')) as { all_sha256?: string }) : {};
  if (before.all_sha256 !== sumOfAll()) await buildAll();
}

/** Whole under another name first, then renamed: who starts meanwhile hardly ever finds none. */
export async function buildAll(): Promise<void> {
  await buildKernels();
  await buildInterpreter();
  await buildLaws();
  const part = `dist.${process.pid}.part`;
  const bundles = [
    await buildModules(part),
    await buildWhenAsked(part),
    await buildBrowserLibrary(`${part}/library`),
    ...(await buildPages(`${part}/web`)),
  ];
  mkdirSync(`${part}/schemas`);
  for (const [name, schema] of Object.entries(schemaDocuments))
    writeFileSync(`${part}/schemas/${name}.json`, `${JSON.stringify(schema, null, 1)}\n`);
  writeFileSync(`${part}/${builtTreesFile}`, builtTrees());
  writeFileSync(`${part}/LICENCES.txt`, licencesText(licensedIn(bundles)));
  writeFileSync(
    `${part}/${builtFrom}`,
    JSON.stringify({ source_sha256: sumOfSource('.'), all_sha256: sumOfAll() }),
  );
  const old = `dist.old.${process.pid}.part`;
  if (existsSync('dist')) renameSync('dist', old);
  renameSync(part, 'dist');
  rmSync(old, { recursive: true, force: true });
  await keepCode('dist');
}

async function buildModules(folder: string): Promise<Metafile> {
  const { metafile } = await build({
    entryPoints: entries.map((entry) => `src/${entry}`),
    outbase: 'src',
    outdir: folder,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // It finds a file of its own by where it stands.
    external: ['piscina'],
    // Packages that are no modules ask for Node's own ones by a function that a module has not.
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
    // Reading the text of a module is most of what starting costs; names stay, for whoever reads a stack.
    minifyWhitespace: true,
    minifySyntax: true,
    // An error that nobody caught shows its whole line.
    lineLimit: 160,
    plugins: [whenAsked],
    sourcemap: 'linked',
    metafile: true,
    logLevel: 'warning',
  });
  return metafile;
}

if (import.meta.url === `file://${process.argv[1]}`) await buildAll();
