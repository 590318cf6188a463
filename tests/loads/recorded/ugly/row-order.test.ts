/** Rows out of order, twice, or of two recordings. */
import { describe, expect, test } from 'vitest';
import { energy_J, file, read, readToTruth, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    ['newest first', file('t_s,power_W', rows((t, p) => [t, p]).reverse())],
    [
      'every row twice',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]).flatMap((r) => [r, r]),
      ),
    ],
    [
      'a late row now and then',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]).map((r, k, all) => (k === 5 ? all[6]! : k === 6 ? all[5]! : r)),
      ),
    ],
  ]);
});

describe('refused with the way out:', () => {
  test('two recordings in one file', () => {
    const once = rows((t, p) => [t, p]);
    const text = file('t_s,power_W', once, once.slice(0, 20), once);
    const long = file(
      't_s,power_W',
      [0, 1].flatMap((r) => Array.from({ length: 60 }, (_, k) => `${k},${1000 + r}`)),
    );
    expect(() => read(long)).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: ugly:1
        found     stamps of power_W that jump back and run again over 59.00 s already recorded
        expected  one recording: two in one file, or a clock that was put back, cannot be told from rows out of order
        mend      split the file there, name the column of channels by --channel, or give --sort to lay them over each other
      1 problem in 1 file. Nothing was run.]
    `);
    expect(read(long, { sort: true }).statement.duplicates_count).toBe(60);
    expect(read(text, { sort: true }).statement.total.energy_J).toBeCloseTo(energy_J, 3);
  });
});
