/** The build that runs here, known by its own source: `src` stands beside the command in a checkout and as installed. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Build } from './format.ts';
import { sha256 } from './sum.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Read anew each time it is asked for: 3 MB. */
export function thisBuild(): Build {
  return { source_sha256: sumOfSource(root), node_version: process.versions.node };
}

/** SHA-256 over path and SHA-256 of every program file below `src`, sorted by path, and of `package.json`. */
export function sumOfSource(folder: string): string {
  const programs = readdirSync(join(folder, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|mjs)$/.test(name))
    .map((name) => `src/${name.split(sep).join('/')}`)
    .sort();
  const sum = createHash('sha256');
  for (const name of ['package.json', ...programs])
    sum.update(`${sha256(readFileSync(join(folder, name)))}  ${name}\n`);
  return sum.digest('hex');
}
