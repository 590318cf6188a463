/** The library as one module for browsers, with the scenarios and models that it carries, and the types of both libraries. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Metafile, type Plugin } from 'esbuild';
import { asInPages } from './pages.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const source = (name: string): string => join(root, 'src/library', name);

/** Where a bundle sums bytes, a browser does it in a form of its own. */
const sumInBrowser: Plugin = {
  name: 'sum-in-browser',
  setup({ onResolve }) {
    onResolve({ filter: /^\.\/sum\.ts$|\/bundle\/sum\.ts$/ }, () => ({ path: source('in-browser/sum.ts') }));
  },
};

export async function buildBrowserLibrary(folder: string): Promise<Metafile> {
  const { metafile } = await build({
    entryPoints: [source('browser.ts')],
    outdir: folder,
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    define: { SHIPPED_TEXTS: JSON.stringify(shippedTexts()) },
    plugins: [asInPages, sumInBrowser],
    metafile: true,
    logLevel: 'warning',
  });
  return metafile;
}

/** Texts of the scenarios and models in the package, by path. */
function shippedTexts(): Readonly<Record<string, string>> {
  const files = ['scenarios', 'models'].flatMap((folder) =>
    readdirSync(join(root, folder))
      .filter((name) => name.endsWith('.yaml'))
      .map((name) => `${folder}/${name}`),
  );
  return Object.fromEntries(files.map((name) => [name, readFileSync(join(root, name), 'utf8')]));
}

/**
 * Types of both libraries, each in one file that names no other. They take a compile of the whole: made when a package is, not
 * at each build.
 */
export async function writeTypes(folder: string): Promise<void> {
  const { generateDtsBundle } = await import('dts-bundle-generator');
  const entries = ['node', 'browser'];
  const texts = generateDtsBundle(
    entries.map((name) => ({ filePath: source(`${name}.ts`), noCheck: true, output: { noBanner: true } })),
    { preferredConfigPath: join(root, 'tsconfig.json') },
  );
  entries.forEach((name, k) => {
    writeFileSync(join(folder, `${name}.d.ts`), texts[k]!);
  });
}
