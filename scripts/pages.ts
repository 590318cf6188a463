/** What pages run, paint and hold, made of `web/`: scripts and styles each in one text, and the markup as it stands. */
import { copyFileSync, mkdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Metafile, type Plugin } from 'esbuild';

const web = fileURLToPath(new URL('../web/', import.meta.url));

const scripts = ['main.ts', 'study/main.ts', 'compare/main.ts'];
const engine = 'engine/worker/worker.ts';
const styles = ['style.css', 'study/study.css', 'compare/compare.css'];
const markup = ['shell.html', 'main.html', 'study/main.html', 'compare/main.html'];

/** What an engine in a browser leaves to the command line, by the ending of its path. */
const leftOut = ['controllers.ts', 'enclosure.ts', 'parquet-text.ts', 'made/templates.ts'];

/** For bundles of the engine: these files in the forms that a page has of them. */
export const asInPages: Plugin = {
  name: 'left-out',
  setup({ onResolve }) {
    for (const name of leftOut)
      onResolve({ filter: new RegExp(`/${name.replace('.', '\\.')}$`) }, ({ importer }) =>
        importer.includes('/left-out/') ? null : { path: `${web}engine/worker/left-out/${basename(name)}` },
      );
  },
};

/**
 * Writes them below `folder`, by their paths in `web/`, and gives what went into scripts and styles. Scripts are classic
 * ones, as module scripts do not load from disk.
 */
export async function buildPages(folder: string): Promise<Metafile[]> {
  const bundled = {
    outbase: web,
    outdir: folder,
    bundle: true,
    metafile: true,
    logLevel: 'warning',
  } as const;
  const script = { format: 'iife', minify: true, target: 'es2022', legalComments: 'inline' } as const;
  const built = await Promise.all([
    build({ ...bundled, ...script, entryPoints: scripts.map((name) => web + name) }),
    build({ ...bundled, ...script, entryPoints: [web + engine], plugins: [asInPages] }),
    build({ ...bundled, entryPoints: styles.map((name) => web + name) }),
  ]);
  for (const name of markup) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    copyFileSync(web + name, join(folder, name));
  }
  return built.map(({ metafile }) => metafile);
}
