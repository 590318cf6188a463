/** The build that runs here, known by its source: read where it runs as source, kept beside it where it was built. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { home, isBuilt } from '../home.ts';
import type { Build } from './format.ts';
import { sha256 } from './sum.ts';

/** Name of the file in `dist` that says what it was built from. */
export const builtFrom = 'built-from.json';

/** Read anew each time it is asked for. */
export function thisBuild(): Build {
  return { source_sha256: isBuilt ? keptSum() : sumOfSource(home), node_version: process.versions.node };
}

function keptSum(): string {
  const { source_sha256 } = JSON.parse(readFileSync(join(home, 'dist', builtFrom), 'utf8')) as Build;
  return source_sha256;
}

/** SHA-256 over path and SHA-256 of every program file below `src`, sorted by path, and of `package.json`. */
export function sumOfSource(folder: string): string {
  const programs = readdirSync(join(folder, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.ts$/.test(name))
    .map((name) => `src/${name.split(sep).join('/')}`)
    .sort();
  const sum = createHash('sha256');
  for (const name of ['package.json', ...programs])
    sum.update(`${sha256(readFileSync(join(folder, name)))}  ${name}\n`);
  return sum.digest('hex');
}
