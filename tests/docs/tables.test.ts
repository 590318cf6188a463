/** The tables that scripts write into the pages are what the program has now. */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { casesPage, rowsOf } from '../../scripts/cases-table.ts';
import { limitTable, pagesWithTables } from '../../scripts/scenario-tables.ts';
import { equations } from '../../scripts/write-equations.ts';
import { quantities } from '../../src/scenario/limit-quantities.ts';
import { textOf } from './read-pages.ts';

describe('tables', () => {
  it('of src/EQUATIONS.md have every key, and the numbers that the engine gives now (else npm run -s check:numbers)', () => {
    expect(textOf('src/EQUATIONS.md')).toBe(equations());
  });

  it.each([...pagesWithTables()])(
    'of %s have what readers accept now (else npm run -s check:numbers)',
    (page, text) => {
      expect(textOf(page)).toBe(text);
    },
  );

  it('of limits show every quantity that a row may compare', () => {
    const shown = limitTable();
    expect(Object.keys(quantities).filter((name) => !shown.includes(`\`${name}\``))).toEqual([]);
  });

  // Whether a row is still true is asked where it is found: a file of tests/reference fails when its rows differ.
  it('of published cases have every file of tests/reference (else npm run -s check:numbers)', () => {
    const named = new Set(rowsOf(textOf(casesPage)).map((row) => /\(([\w-]+\.test\.ts)\)/.exec(row)![1]!));
    const files = readdirSync('tests/reference').filter((name) => name.endsWith('.test.ts'));
    expect([...named].sort()).toEqual(files.sort());
  });

  it('of shipped scenarios have every one of them (else npm run -s check:verdicts)', () => {
    const named = [...textOf('scenarios/verdicts.md').matchAll(/^\| \[[\w-]+\]\(([\w-]+\.yaml)\)/gm)].map(
      (m) => m[1]!,
    );
    expect(named).toEqual(
      readdirSync('scenarios')
        .filter((name) => name.endsWith('.yaml'))
        .sort(),
    );
  });
});
