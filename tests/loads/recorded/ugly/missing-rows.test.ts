/** Rows that are missing and leave no gap: what the head, a count of the rows or the stamps themselves tell of them. */
import { describe, expect, test } from 'vitest';
import { file, read } from './known-load.ts';

const head = 't_s,power_W';
/** Rows 20 ms apart that `keeps` lets through. */
const rows = (
  count: number,
  keeps: (k: number) => boolean,
  of = (k: number) => `${k / 50},${1000 + (k % 7)}`,
) =>
  Array.from({ length: count }, (_, k) => k)
    .filter(keeps)
    .map(of);
const all = (): boolean => true;
const second = (k: number): boolean => k % 2 === 0;
type Part = string | readonly string[];
const warnings = (...parts: readonly Part[]): string => read(file(...parts)).statement.warnings.join('\n');

describe('every second row lost is told', () => {
  test.each([
    ['a rate above the head', '# sampling rate: 50 Hz'],
    ['samples a second', '# Sample rate 50 S/s'],
    ['an interval', '# sample interval = 20 ms'],
    ['a step in a line of its own', 'dt,20 ms'],
  ])('by %s', (_, about) => {
    expect(warnings(about, head, rows(400, second))).toMatch(
      /The file says ".*", a row every 20 ms, and its rows are 40 ms apart: rows are missing/,
    );
    expect(warnings(about, head, rows(400, all))).toBe('');
  });

  test('by a column that counts the rows', () => {
    const counted = (k: number): string => `${k + 3},${k / 50},${1000 + (k % 7)}`;
    expect(warnings('index,t_s,power_W', rows(400, second, counted))).toBe(
      'Column index counts the rows in steps of 2: of 2 rows 1 may be missing.',
    );
    expect(
      warnings(
        'n,t_s,power_W',
        rows(400, (k) => k < 300 || second(k), counted),
      ),
    ).toMatch(/^Column n counts the rows and jumps at 49 places, 49 rows short\.$/m);
    expect(warnings('index,t_s,power_W', rows(400, all, counted))).toBe('');
  });

  test('by a mixture of steps, from where it is lost on or before', () => {
    for (const keeps of [(k: number) => k < 200 || second(k), (k: number) => k >= 300 || second(k)])
      expect(warnings(head, rows(400, keeps))).toMatch(
        /^Stamps of power_W are a mixture of steps: \d+ of 20 ms, \d+ of 40 ms or more\. \d+ rows may be missing/,
      );
  });
});

test('a few single rows lost are a remark, not a warning', () => {
  const { statement } = read(
    file(
      head,
      rows(2000, (k) => k !== 500 && k !== 900),
    ),
  );
  expect(statement.warnings).toEqual([]);
  expect(statement.inferred.join()).toMatch(
    /1995 of 20 ms, 2 of 40 ms or more\. 2 rows may be missing in 0\.2/,
  );
});

describe('rows lost at the end are told', () => {
  test.each([
    ['a number of rows', '# rows: 400', /"rows: 400" and holds 300 rows: 100 are missing/],
    ['a number of samples', '400 samples', /"400 samples" and holds 300 rows: 100 are missing/],
    ['a duration', '# duration 8 s', /"duration 8 s" and its stamps span 5\.98 s: rows are missing/],
  ])('by %s', (_, about, why) => {
    expect(warnings(about, head, rows(300, all))).toMatch(why);
    expect(warnings(about, head, rows(400, all))).toBe('');
  });
});

describe('nothing is told of', () => {
  test.each<[string, readonly Part[]]>([
    ['another rate in the head', ['# line frequency 60 Hz, period of the load 1.6 s', head, rows(400, all)]],
    ['a column that is no count', ['sequence,t_s,power_W', rows(400, all, (k) => `${k % 8},${k / 50},1000`)]],
    ['a count of ticks', ['counter,t_s,power_W', rows(400, all, (k) => `${20 * k},${k / 50},1000`)]],
    [
      'stamps that jitter',
      [head, rows(400, all, (k) => `${(k + 0.9 * Math.sin(17 * k)) / 50},${1000 + (k % 7)}`)],
    ],
  ])('%s', (_, parts) => {
    const { warnings: said, inferred } = read(file(...parts), {
      channel: 'none',
      sort: true,
    }).statement;
    expect([said, inferred.filter((line) => /missing/.test(line))]).toEqual([[], []]);
  });
});
