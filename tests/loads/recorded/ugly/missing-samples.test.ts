/** Samples that are missing, stand for no reading or lie beyond all measure. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../../src/loads/random.ts';
import { byNumber, file, lines, read, readToTruth, rows, sampled } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    [
      '-1, N/A and empty cells between samples on the straight lines',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]).flatMap((r, k) => [
          r,
          `${k / 2 + 0.1},-1`,
          `${k / 2 + 0.2},N/A`,
          `${k / 2 + 0.3},`,
        ]),
      ),
    ],
  ]);
});

describe('a gap is left where nothing was read', () => {
  test('a gap is no zero load', () => {
    const { statement: s } = read(
      file(
        't_s,power_W',
        rows((t, p) => [t, p]).filter((_, k) => k < 8 || k > 13),
      ),
    );
    expect([s.gaps_count, s.gap_total_s, s.coverage_ratio]).toEqual([1, 3.5, 0.65]);
    expect(s.total.min_W).toBe(1000);
  });

  test('a value that stands for no reading leaves a gap, and is counted', () => {
    const text = sampled(20, 200, (k) => (k >= 100 && k < 120 ? 65535 : 1000 + (k % 7)));
    const { statement, total } = read(text, { sentinel: [65535] });
    expect(total.power_W.every((power) => power < 1010)).toBe(true);
    expect(statement.edits.map(({ what, count }) => [count, what])).toContainEqual([
      20,
      'values that stand for no reading left out',
    ]);
    expect(statement.gaps_count).toBe(1);
    expect(read(text).total.power_W.some((power) => power > 60_000)).toBe(true);
  });
});

describe('a number far below 0 is told, though a load draws none:', () => {
  const random = new Random(3);
  const noise = Array.from({ length: 400 }, () => random.uniform());
  const told = (of: (k: number) => number | null) => {
    const { statement } = read(sampled(20, 400, (k) => of(k) ?? 1000 + Math.round(30 * noise[k]!)));
    return statement.signs.map(({ shows, asks }) => `${shows}: ${asks}`);
  };

  test('one value again and again, also beside noise about 0', () => {
    const again = /power_W is exactly -9.999 kW in 20 samples from .+--sentinel/;
    expect(told((k) => (k % 20 === 5 ? -9999 : null))).toEqual([expect.stringMatching(again)]);
    const withNoise = (k: number) => (k % 20 === 5 ? -9999 : k % 10 === 3 ? -0.1 * (1 + (k % 3)) : null);
    expect(told(withNoise)).toContainEqual(expect.stringMatching(again));
  });

  test('once, and in a current that is multiplied', () => {
    expect(told((k) => (k === 77 ? -9999 : null))).toEqual([
      expect.stringMatching(/power_W: one sample, -9.999 kW at .+, is far below 0.+--sentinel/),
    ]);
    const text = file(
      't_s,current_A,voltage_V',
      Array.from({ length: 400 }, (_, k) => [k / 20, k % 20 === 5 ? -999 : 20 + noise[k]!, 50].join(',')),
    );
    expect(read(text).statement.signs.map(({ shows }) => shows)).toEqual([
      expect.stringMatching(/^current_A is exactly -999 A in 20 samples/),
    ]);
  });

  test('noise about 0 is none, and several values are no such number', () => {
    expect(told((k) => (k % 10 === 3 ? -1 : null))).toEqual([]);
    expect(() => told((k) => (k % 20 === 5 ? -9999 - k : null))).toThrow(/--sentinel VALUE/);
  });
});

describe('what is beyond all measure is left out and said:', () => {
  const spoilt = (row: number, line: string) =>
    `t_s,power_W\n${lines((t, p, k) => (k === row ? line : `${t},${p}`))}`;

  test.each([
    ['a stamp of 1e999', spoilt(7, '1e999,1280')],
    ['a stamp of −1e308', spoilt(7, '-1e308,1280')],
    ['a stamp of 1.7e18', spoilt(7, '1.7e18,1280')],
    ['a stamp of four hundred digits', spoilt(7, `${'9'.repeat(400)},1280`)],
    ['a power of 1e308', spoilt(7, '3.5,1e308')],
    ['a power of 1e999', spoilt(7, '3.5,1e999')],
    ['a sentinel of −1', spoilt(7, '3.5,-1')],
    ['a word', spoilt(7, '3.5,error')],
    ['nothing', spoilt(7, '3.5,')],
    ['too many cells', spoilt(7, '3.5,1280,7,7')],
  ])('%s, and the place is a gap', (_, text) => {
    const { statement: s, gaps } = read(text);
    expect(s.total.energy_J).toBeCloseTo(12_000, 4);
    expect([s.gaps_count, s.gap_total_s, s.coverage_ratio]).toEqual([1, 1, 0.9]);
    expect(gaps).toEqual([{ from_s: 3, to_s: 4 }]);
    expect(s.edits.length).toBe(2);
  });
});

test('a stamp that no sum of times keeps apart from another is the same stamp', () => {
  const text = file('t_s,P1_W,P2_W', '0,2,1', '1e-195,4,3', '1,3,2', '2,3,2', '3,9,8', '4,3,2', '5,3,2');
  const { statement, channels, total } = read(text, { align: true });
  expect(channels.map(({ series }) => series.power_W[0])).toEqual([3, 2]);
  expect([statement.duplicates_count, total.time_s.length]).toEqual([2, 6]);
});

describe('a line that is no row leaves a gap, as far as it was a sample:', () => {
  const json = (t: number, p: number): string => JSON.stringify({ t_s: t, power_W: p });
  const long = (row: string): string =>
    `t_s,gpu,power_W\n${lines((t, p, k) => (k === 7 ? `${t},a,${p}\n${row}` : `${t},a,${p}\n${t},b,${p}`))}`;
  const late = Array.from({ length: 300 }, (_, k) => (k === 250 ? '{"t_s": 125, "po' : json(k / 2, 1000)));

  test.each([
    ['a torn object', lines((t, p, k) => (k === 7 ? '{"t_s": 3.5, "po' : json(t, p))), 3, 4],
    ['two objects on a line', lines((t, p, k) => (k === 7 ? json(t, p) + json(t, p) : json(t, p))), 3, 4],
    ['a line that says null', lines((t, p, k) => (k === 7 ? 'null' : json(t, p))), 3, 4],
    ['a torn object behind the head', late.join('\n'), 124.5, 125.5],
    ['a torn array', lines((t, p, k) => (k === 7 ? `[${t}, 12` : JSON.stringify([t, p]))), 3, 4],
    ['a row that does not say its channel', long('3.'), 3, 4],
  ])('%s', (name, text, from_s, to_s) => {
    const asked = name.endsWith('array') ? byNumber : {};
    const { statement, gaps } = read(text, asked);
    expect(gaps).toEqual([{ from_s, to_s }]);
    expect(statement.coverage_ratio).toBeLessThan(1);
  });
});
