/**
 * Published cases: each is held to its tolerance and becomes a row of the table in README.md beside it. The table is written by
 * `npm run -s check:numbers` from what the tests of this folder found; a test file fails when its rows there are
 * not what it finds now. Many values of one source are one row, which shows the one that comes closest to its
 * tolerance.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { afterAll, expect } from 'vitest';
import { caseRow, casesPage, rowsOf } from '../../scripts/cases-table.ts';

export interface Source {
  /** What is compared. */
  readonly what: string;
  /** Where the expected values stand; "closed form" where they are arithmetic. */
  readonly source: string;
  /** Unit of the values. */
  readonly unit?: string;
  /** Errors are differences in that unit, not shares of the value. */
  readonly absolute?: boolean;
}

export interface Found {
  /** Which of the values. */
  readonly which: string;
  readonly expected: number;
  readonly found: number;
  /** Largest error allowed: a share of `scale`, or a difference where the source is read in differences. */
  readonly tolerance: number;
  /** What errors are a share of; the expected value by default. */
  readonly scale?: number;
}

/** A row of the table. */
export interface CaseRow extends Source, Found {
  readonly file: string;
  readonly count: number;
  readonly error: number;
}

const cases: { readonly source: Source; readonly found: (Found & { readonly error: number })[] }[] = [];
let file = '';

/** Begins a row of the table; what it returns holds one value against its source. */
export function published(source: Source): (found: Found) => void {
  const one = { source, found: [] as (Found & { readonly error: number })[] };
  cases.push(one);
  return (found) => {
    file = basename(expect.getState().testPath!);
    const { which, expected, tolerance, scale = Math.abs(expected) } = found;
    const error = Math.abs(found.found - expected) / (source.absolute === true ? 1 : scale);
    one.found.push({ ...found, error });
    expect(error, `${source.what}, ${which}: ${found.found} for ${expected}`).toBeLessThan(tolerance);
  };
}

function rows(): CaseRow[] {
  return cases.flatMap(({ source, found }) => {
    if (found.length === 0) return [];
    const worst = found.reduce((a, b) => (b.error / b.tolerance > a.error / a.tolerance ? b : a));
    return [{ file, ...source, ...worst, count: found.length }];
  });
}

/** Tests left out by a filter leave a table that says nothing. */
function isWhole(suite: { readonly tasks: readonly { readonly mode: string }[] }): boolean {
  return suite.tasks.every((task) => {
    const inner = task as { readonly mode: string; readonly tasks?: readonly { readonly mode: string }[] };
    return inner.mode === 'run' && (inner.tasks === undefined || isWhole({ tasks: inner.tasks }));
  });
}

// biome-ignore lint/correctness/noEmptyPattern: the runner reads from the pattern which fixtures are wanted
afterAll(({}, suite) => {
  if (!isWhole(suite as never)) return;
  const found = rows();
  mkdirSync('out/cases', { recursive: true });
  writeFileSync(`out/cases/${file}.json`, JSON.stringify(found));
  if (process.env['WRITE_CASES'] === '1') return;
  const shown = rowsOf(readFileSync(casesPage, 'utf8')).filter((row) => row.includes(`(${file})`));
  expect(shown, `rows of ${casesPage} are stale: npm run -s check:numbers`).toEqual(found.map(caseRow));
});
