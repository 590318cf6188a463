/**
 * Modules of `dist` that are loaded by the first call to one of their functions. A controller of the user's own needs them
 * and nothing else does, while the text of them is as long as all that a run needs besides.
 */
import { build, type Metafile, type Plugin } from 'esbuild';

interface WhenAsked {
  /** What imports name it by. */
  readonly named: RegExp;
  readonly from: string;
  readonly functions: readonly string[];
}

const modules: Readonly<Record<string, WhenAsked>> = {
  translator: { named: /^sucrase$/, from: 'sucrase', functions: ['transform'] },
  interpreter: {
    named: /\/made\/interpreter\.js$/,
    from: './src/firmware/user/made/interpreter.js',
    functions: ['loaded', 'interpreterBase64'],
  },
};

const folder = 'when-asked';

/** For bundles that run in Node: each of them as functions that load it. */
export const whenAsked: Plugin = {
  name: folder,
  setup({ onResolve, onLoad }) {
    for (const [name, { named }] of Object.entries(modules))
      onResolve({ filter: named }, () => ({ path: name, namespace: folder }));
    onLoad({ filter: /./, namespace: folder }, ({ path }) => ({
      resolveDir: '.',
      contents: [
        "import { createRequire } from 'node:module';",
        "import { fileURLToPath } from 'node:url';",
        "import { built } from './src/home.ts';",
        'let made;',
        `const of = () => (made ??= createRequire(import.meta.url)(fileURLToPath(built('${folder}/${path}.cjs'))));`,
        ...modules[path]!.functions.map(
          (name) => `export const ${name} = (...given) => of().${name}(...given);`,
        ),
      ].join('\n'),
    }));
  },
};

/** Writes them below `dist`, and gives what went into them. */
export async function buildWhenAsked(dist: string): Promise<Metafile> {
  const { metafile } = await build({
    entryPoints: Object.entries(modules).map(([name, { from }]) => ({ in: from, out: `${folder}/${name}` })),
    outdir: dist,
    outExtension: { '.js': '.cjs' },
    bundle: true,
    minify: true,
    legalComments: 'inline',
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    metafile: true,
    logLevel: 'warning',
  });
  return metafile;
}
