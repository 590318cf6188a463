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

/** Rows of each file, in the order in which the file begins them. */
const rowsOfFile = new Map<string, CaseRow[]>();

/**
 * Begins a row of the table; what it returns holds one value against its source. When the tests around it are over, the row
 * is held against the table. Files that share a process share this module, so a row is held where it was begun.
 */
export function published(source: Source): (found: Found) => void {
  const found: (Found & { readonly error: number })[] = [];
  let file = '';
  // biome-ignore lint/correctness/noEmptyPattern: the runner reads from the pattern which fixtures are wanted
  afterAll(({}, suite) => {
    if (found.length === 0 || !isWhole(suite as never)) return;
    const worst = found.reduce((a, b) => (b.error / b.tolerance > a.error / a.tolerance ? b : a));
    hold({ file, ...source, ...worst, count: found.length });
  });
  return (one) => {
    file = basename(expect.getState().testPath!);
    const { which, expected, tolerance, scale = Math.abs(expected) } = one;
    const error = Math.abs(one.found - expected) / (source.absolute === true ? 1 : scale);
    found.push({ ...one, error });
    expect(error, `${source.what}, ${which}: ${one.found} for ${expected}`).toBeLessThan(tolerance);
  };
}

/** Keeps a row for the table, or holds it against the one that stands there. */
function hold(row: CaseRow): void {
  // Hooks run from the last one back.
  const rows = [row, ...(rowsOfFile.get(row.file) ?? [])];
  rowsOfFile.set(row.file, rows);
  if (process.env['WRITE_CASES'] === '1') {
    mkdirSync('out/cases', { recursive: true });
    writeFileSync(`out/cases/${row.file}.json`, JSON.stringify(rows));
    return;
  }
  const shown = rowsOf(readFileSync(casesPage, 'utf8')).filter((line) => line.includes(`(${row.file})`));
  expect(shown, `rows of ${casesPage} are stale: npm run -s check:numbers`).toContain(caseRow(row));
}

/** Tests left out by a filter leave a table that says nothing. */
function isWhole(suite: { readonly tasks: readonly { readonly mode: string }[] }): boolean {
  return suite.tasks.every((task) => {
    const inner = task as { readonly mode: string; readonly tasks?: readonly { readonly mode: string }[] };
    return inner.mode === 'run' && (inner.tasks === undefined || isWhole({ tasks: inner.tasks }));
  });
}
