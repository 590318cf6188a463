/** Where the package stands: scenarios, models and the page's sources are found from there, run as source or as built. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

function above(folder: string): string {
  return existsSync(join(folder, 'package.json')) ? folder : above(dirname(folder));
}

/** The package's folder. */
export const home: string = above(dirname(fileURLToPath(import.meta.url)));

/** A module of the build by its path below `src`: what is started on a thread runs as built, whoever starts it. */
export function built(module: string): URL {
  return pathToFileURL(join(home, 'dist', module.replace(/\.ts$/, '.js')));
}

/** What starts a module of the build on a thread: where this runs as one script, the script that was made of that one beside it. */
export function startOf(module: string): URL {
  const name = module.replace(/^.*\//, '').replace(/\.ts$/, '');
  const script = new URL(`${name}-start.cjs`, import.meta.url);
  return existsSync(fileURLToPath(script)) ? script : built(module);
}

/** This module runs as built, not as source. */
export const isBuilt: boolean = !import.meta.url.endsWith('.ts');
