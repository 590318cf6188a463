/** The trees of all scenarios, models and studies that come with the project, for `dist`. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../src/base/problem.ts';
import { treeLine } from '../src/bundle/built-trees.ts';
import { readShortText } from '../src/disk/read-file.ts';
import { readDocument } from '../src/scenario/text/document.ts';

/** One line each, in the order of their paths; a file that something is wrong with has none. */
export function builtTrees(): string {
  const files = ['models', 'scenarios'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  return files.sort().map(lineOf).join('');
}

function lineOf(file: string): string {
  const { text, sha256 } = readShortText(file);
  const problems: Problem[] = [];
  const tree = readDocument(file, text, problems);
  return tree === null || problems.length > 0 ? '' : treeLine(sha256, tree);
}
