/** What runs and paints in a page, bundled from the sources in `web/`. */
import { join } from 'node:path';
import { type BuildOptions, build } from 'esbuild';
import { home } from '../../home.ts';

/** Folder of the pages' sources. */
export const web: string = join(home, 'web/');

/** A style sheet of `web/`, its parts in one text. */
export function pageStyle(entry: string): Promise<string> {
  return bundled(entry, {});
}

/** A script of `web/`, bundled as one classic script: module scripts do not load from disk. */
export function pageScript(entry: string, plugins: BuildOptions['plugins'] = []): Promise<string> {
  return bundled(entry, { format: 'iife', minify: true, target: 'es2022', legalComments: 'inline', plugins });
}

async function bundled(entry: string, options: BuildOptions): Promise<string> {
  const { outputFiles } = await build({
    ...options,
    entryPoints: [`${web}${entry}`],
    bundle: true,
    write: false,
    logLevel: 'silent',
  });
  return outputFiles![0]!.text;
}
