/** The documents say what the code has: tables, links, commands. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rowsBetweenMarks } from '../scripts/cases-table.ts';
import { equations } from '../scripts/write-equations.ts';
import { estimateText } from '../src/cli/size.ts';
import { studyNamed } from '../src/cli/study-options.ts';
import { Shelf } from '../src/studies/bench/run-trial.ts';
import { estimate } from '../src/studies/estimate/estimate.ts';

const documents = [
  'README.md',
  'DEVELOPERS.md',
  'src/EQUATIONS.md',
  'scenarios/loads/README.md',
  ...['src/devices', 'src/firmware', 'src/bundle'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.md'))
      .map((name) => `${folder}/${name}`),
  ),
];

describe('documents', () => {
  it('src/EQUATIONS.md has every key, and the numbers that the engine gives now (else npm run -s check:numbers)', () => {
    expect(readFileSync('src/EQUATIONS.md', 'utf8')).toBe(equations());
  });

  // Whether a row is still true is asked where it is found: a file of tests/reference fails when its rows differ.
  it('README.md has the published cases of every file of tests/reference (else npm run -s check:numbers)', () => {
    const rows = rowsBetweenMarks(readFileSync('README.md', 'utf8'));
    const named = new Set(rows.map((row) => /\(tests\/reference\/([\w-]+\.test\.ts)\)/.exec(row)![1]!));
    const files = readdirSync('tests/reference').filter((name) => name.endsWith('.test.ts'));
    expect([...named].sort()).toEqual(files.sort());
  });

  it('README.md shows the rule lines of the worked sizing as they are printed', { timeout: 60_000 }, () => {
    const text = readFileSync('README.md', 'utf8');
    const block = /```text\n( {3}3 {2}Cycle energy[^`]+)```/.exec(text)![1]!.trimEnd().split('\n');
    const shelf = new Shelf();
    const study = studyNamed('trays', 'size', []);
    const situations = study.cases.map(({ name, scenario, changes }) => ({
      name,
      read: shelf.read({ scenario: scenario ?? study.scenario, changes: [...study.changes, ...changes] }),
    }));
    const printed = estimateText(estimate(situations)!);
    expect(block.filter((line) => !printed.includes(line))).toEqual([]);
    expect(block.length).toBeGreaterThan(15);
  });

  it.each(documents)('links of %s lead to files that exist', (document) => {
    const text = readFileSync(document, 'utf8');
    const links = [...text.matchAll(/\]\(([^)#]+)[^)]*\)/g)].map(([, target]) => target!);
    const broken = links.filter((to) => !/^https?:/.test(to) && !existsSync(join(dirname(document), to)));
    expect(broken).toEqual([]);
  });

  it('files named in backticks exist', () => {
    const text = documents.map((document) => readFileSync(document, 'utf8')).join('\n');
    const named = [...text.matchAll(/`((?:src|tests|models|scenarios|scripts|web)\/[\w./-]*\w)`/g)].map(
      (m) => m[1]!,
    );
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((file) => !existsSync(file))).toEqual([]);
  });

  it('npm scripts named in the documents exist', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      scripts: Record<string, string>;
    };
    const text = documents.map((document) => readFileSync(document, 'utf8')).join('\n');
    const named = [...text.matchAll(/npm run (?:-s )?([\w:]+)/g)].map((m) => m[1]!);
    expect(named.length).toBeGreaterThan(5);
    expect(named.filter((name) => scripts[name] === undefined)).toEqual([]);
  });
});
