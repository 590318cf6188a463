/** Trees of shipped files, kept by the build: those of their texts, whatever name the file is read under. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/base/problem.ts';
import { builtTreesFile, treeIn, treeLine } from '../../src/bundle/built-trees.ts';
import { sha256 } from '../../src/bundle/sum.ts';
import { Desk } from '../../src/scenario/text/desk.ts';
import { type Branch, readDocument } from '../../src/scenario/text/document.ts';
import { openBranch, type PackedBranch } from '../../src/scenario/text/packed-tree.ts';

const kept = readFileSync(`dist/${builtTreesFile}`, 'utf8').split('\n').slice(0, -1);
const trees = new Map(
  kept.flatMap((line) => Object.entries(JSON.parse(line) as Record<string, PackedBranch>)),
);

const shipped = ['models', 'scenarios'].flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => `${folder}/${file}`),
);

function parsed(file: string, text: string): Branch {
  const problems: Problem[] = [];
  const tree = readDocument(file, text, problems);
  expect(problems).toEqual([]);
  return tree!;
}

describe('trees that the build keeps', () => {
  it.each(shipped)('%s has one, with every place of its text', (file) => {
    const text = readFileSync(file, 'utf8');
    const tree = trees.get(sha256(Buffer.from(text)));
    expect(tree).toBeDefined();
    expect(openBranch('any/name.yaml', tree!)).toEqual(parsed('any/name.yaml', text));
  });

  it('are found by a line that holds ASCII alone', () => {
    const line = treeLine('ab12', parsed('a.yaml', 'title: 5 µΩ → "x"\n'));
    expect(line).toMatch(/^[ -~]+\n$/);
    const { ab12 } = JSON.parse(line) as { readonly ab12: PackedBranch };
    expect(openBranch('a.yaml', ab12).entries.get('title')!.node).toMatchObject({ text: '5 µΩ → "x"' });
  });

  it('are none where their file was cut short', () => {
    const tree = parsed('a.yaml', 'title: 5 V\n');
    const lines = treeLine('ab12', tree) + treeLine('cd34', tree).slice(0, -9);
    expect(treeIn(lines, 'ab12')).toBeDefined();
    expect(treeIn(lines, 'cd34')).toBeUndefined();
  });

  it('are taken in place of their text, which is not looked at again', () => {
    const tree: PackedBranch = [1, 1, ['a'], [7, 3], [[7, 6, 'kept']]];
    const desk = new Desk(() => ({ text: 'a: [', sha256: 'of that text', tree }));
    const root = desk.document('models/a.yaml', null, '')!;
    expect(root.entries.get('a')).toEqual({
      node: { kind: 'leaf', text: 'kept', origin: { file: 'models/a.yaml', line: 7, column: 6 } },
      keyOrigin: { file: 'models/a.yaml', line: 7, column: 3 },
    });
    expect(desk.problems).toEqual([]);
    expect(desk.textOf('models/a.yaml')).toBe('a: [');
  });
});
