/** Imports run one way: no two files of the source import each other, types included, however long the way round. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';

function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(/^(?:import|export)[^'"`;]*?from\s+'(\.[^']+)';/gms)].map(([, to]) =>
    join(dirname(file), to!),
  );
}

/** The first circle found, as a walk that ends where it began; empty where there is none. */
function circleOf(imports: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const walk = (file: string, way: readonly string[]): string[] => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
    if (done.has(file)) return [];
    for (const next of imports.get(file) ?? []) {
      const found = walk(next, [...way, file]);
      if (found.length > 0) return found;
    }
    done.add(file);
    return [];
  };
  for (const file of imports.keys()) {
    const found = walk(file, []);
    if (found.length > 0) return found;
  }
  return [];
}

it('no file of src or web reaches itself', () => {
  const files = ['src', 'web'].flatMap((root) =>
    readdirSync(root, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => join(root, name)),
  );
  const imports = new Map(files.map((file) => [file, importsOf(file)]));
  expect(
    circleOf(
      new Map([
        ['a.ts', ['b.ts']],
        ['b.ts', ['a.ts']],
      ]),
    ),
  ).toEqual(['a.ts', 'b.ts', 'a.ts']);
  expect([...imports.values()].flat().length).toBeGreaterThan(files.length);
  expect(circleOf(imports)).toEqual([]);
});
