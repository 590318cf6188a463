/** What an installation brings along, whose code is in `dist`, and on what terms: as the page for developers has it. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { installedWith, licensed } from '../../scripts/licences.ts';

interface Package {
  readonly license: string;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

const text = (name: string): string => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
const { dependencies, devDependencies } = JSON.parse(text('package.json')) as Package;
const page = text('DEVELOPERS.md');
const rows = page
  .slice(page.indexOf('## Dependencies and why'))
  .split('\n')
  .filter((line) => /^\| [^*]/.test(line) && !line.startsWith('| package'))
  .map((line) => line.split('|').map((cell) => cell.trim()));
const headed = (from: string, to?: string): string[] => {
  const section = page.slice(
    page.indexOf(`**${from}**`),
    to === undefined ? undefined : page.indexOf(`**${to}**`),
  );
  return [...section.matchAll(/^\| ([^*|]+?) \|/gm)].map(([, name]) => name!);
};

it('every package stands in the table once, with its licence and a reason', () => {
  expect(rows.map(([, name]) => name).sort()).toEqual(
    Object.keys({ ...dependencies, ...devDependencies }).sort(),
  );
  for (const [, name, licence, why] of rows) {
    expect([name, licence]).toEqual([
      name,
      (JSON.parse(text(`node_modules/${name}/package.json`)) as Package).license,
    ]);
    expect(why!.length).toBeGreaterThan(3);
  }
});

it('an installation brings along what is headed so, on terms that ask for no more than to be repeated', () => {
  expect(headed('installed with it', 'bundled in `dist`')).toEqual(Object.keys(dependencies));
  const along = installedWith(Object.keys(dependencies)).map(licensed);
  expect(along.map(({ name }) => name)).toContain('piscina');
});

it('the packages whose code is bundled have their licences beside it', () => {
  const beside = text('dist/LICENCES.txt');
  const bundled = headed('bundled in `dist`', 'to build and to test');
  const named = [...beside.matchAll(/^(\S+) \d\S*, \S+$/gm)].map(([, name]) => name!);
  // Whole families come under one name.
  expect(bundled.filter((name) => name !== 'd3' && !named.includes(name))).toEqual([]);
  expect(named.some((name) => name.startsWith('d3-'))).toBe(true);
  const direct = new Set(Object.keys(devDependencies));
  expect(named.filter((name) => direct.has(name) && !bundled.includes(name))).toEqual([]);
});
