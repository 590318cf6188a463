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

/** This module runs as built, not as source. */
export const isBuilt: boolean = !import.meta.url.endsWith('.ts');
