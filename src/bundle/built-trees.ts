/**
 * Trees of the files that come with the project, as the build made them: each is known by the sum of the text that it
 * stands for, so a file that was edited since has none and is read as any other. What runs as source reads its files.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { home, isBuilt } from '../home.ts';
import type { Branch } from '../scenario/text/document.ts';
import { type PackedBranch, packBranch } from '../scenario/text/packed-tree.ts';

/** Name of the file in `dist` that keeps them. */
export const builtTreesFile = 'trees.jsonl';

/** A tree as its line of that file, in ASCII: the sum of its text first, by which it is found. */
export function treeLine(sha256: string, tree: Branch): string {
  const packed = JSON.stringify(packBranch(tree));
  const ascii = packed.replace(/[^ -~]/g, (char) => `\\u${char.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return `{"${sha256}":${ascii}}\n`;
}

let lines: string | null = null;

/** The tree of the text with that sum; none where the build has not met it. */
export function builtTree(sha256: string): PackedBranch | undefined {
  lines ??= isBuilt ? linesOf(join(home, 'dist', builtTreesFile)) : '';
  return treeIn(lines, sha256);
}

/** The tree with that sum among lines. */
export function treeIn(lines: string, sha256: string): PackedBranch | undefined {
  const from = lines.indexOf(`{"${sha256}":`);
  if (from < 0) return undefined;
  const to = lines.indexOf('\n', from);
  // A file that was cut short keeps what is whole of it.
  if (to < 0) return undefined;
  const line = lines.slice(from, to);
  return (JSON.parse(line) as Readonly<Record<string, PackedBranch>>)[sha256];
}

function linesOf(file: string): string {
  return existsSync(file) ? readFileSync(file, 'latin1') : '';
}
