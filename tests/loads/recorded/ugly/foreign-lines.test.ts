/** Lines that belong to another table than the rows above them: nothing of them is lost or taken in silence. */
import { describe, expect, test } from 'vitest';
import { comma, file, read, readToTruth, refused, rows } from './known-load.ts';

const half = 10;
const plain = rows((t, p) => [t, p]);

describe('refused by line, with the way out:', () => {
  refused([
    [
      'commas, then semicolons',
      file(
        't_s,power_W',
        plain.map((line, k) => (k <= half ? line : line.replace(',', ';'))),
      ),
      /ugly:13\s.*cells parted by semicolons, in a file parted by commas.*split the file there/s,
    ],
    [
      'semicolons and decimal commas, then commas and points',
      file(
        't_s;power_W',
        rows((t, p, k) => (k < half ? [`${comma(t, 1)};${comma(p, 1)}`] : [t.toFixed(1), p])),
      ),
      /ugly:12\s.*parted by commas, in a file parted by semicolons/s,
    ],
    [
      'tabs, then commas among blanks, every third line',
      file(
        't_s\tpower_W',
        rows((t, p, k) => [`${t.toFixed(1)}${k % 3 === 2 ? ' , ' : '\t'}${p}`]),
      ),
      /ugly:4\s.*parted by commas, in a file parted by tabs/s,
    ],
    [
      'another unit from a second head line on',
      file('t_s,power_W', plain.slice(0, half), 't_s,power_kW', rows((t, p) => [t, p / 1000]).slice(half)),
      /ugly:12\s.*another head line among the rows: t_s power_kW.*split the file there/s,
    ],
    [
      'a second table whose columns have names of their own',
      file('t_s,power_W', plain, 'bin,count', '1000,4', '1040,2'),
      /ugly:23\s.*another head line among the rows: bin count/s,
    ],
    [
      'a quote that swallows the rows up to where another closes it',
      file(
        't_s,power_W,note',
        rows((t, p, k) => [t, p, k === 4 || k === 9 ? '"' : '']),
      ),
      /ugly:6\s.*a quote that opens here and closes 5 lines below, with rows between/s,
    ],
    [
      'a current from a second head line on',
      file('t_s,power_W', plain.slice(0, half), 't_s,current_A', plain.slice(half)),
      /ugly:12\s.*another head line/s,
    ],
    [
      'a temperature from a second head line on, which names no power',
      file('t_s,power_W', plain.slice(0, half), 't_s,temperature_C', plain.slice(half)),
      /ugly:12\s.*another head line/s,
    ],
    [
      'another unit from a second row of units on',
      file(
        't;power',
        's;W',
        rows((t, p) => [t, p], ';').slice(0, half),
        't;power',
        's;kW',
        '5;1.4',
        '5.5;1.3',
      ),
      /ugly:14\s.*another head line among the rows: s kW/s,
    ],
    [
      'another unit from a comment on that names the columns',
      file('t_s,power_W', plain.slice(0, half), '# t_s,power_kW', rows((t, p) => [t, p / 1000]).slice(half)),
      /ugly:12\s.*another head line among the rows: t_s,power_kW.*split the file there/s,
    ],
    [
      'the same behind the rows that are looked at first',
      file(
        't_s,power_W',
        Array.from({ length: 3000 }, (_, k) => `${k / 2},1000`),
        '# t_s,power_kW',
        '1500,1',
      ),
      /ugly:3002\s.*another head line among the rows/s,
    ],
  ]);
});

describe('read to their known truth:', () => {
  readToTruth([
    [
      'the same head line again as a comment, and remarks in words',
      file(
        't_s,power_W',
        plain.slice(0, half),
        '# t_s,power_W',
        '# resumed at time 12:00, power on again',
        plain.slice(half),
      ),
    ],
    ['the same head line again', file('t_s,power_W', plain.slice(0, half), 't_s,power_W', plain.slice(half))],
    [
      'the same head line and units again',
      file(
        ['t;power', 's;W'],
        rows((t, p) => [t, p], ';').slice(0, half),
        ['t;power', 's;W'],
        rows((t, p) => [t, p], ';').slice(half),
      ),
    ],
  ]);
});

test('lines that give no sample are a warning where they are more than 1 % of all', () => {
  const torn = (count: number): string =>
    file(
      't_s,power_W',
      Array.from({ length: 500 }, (_, k) => (k >= 500 - count ? `${k / 2},no link` : `${k / 2},1000`)),
    );
  expect(read(torn(5)).statement.warnings).toEqual([]);
  expect(read(torn(6)).statement.warnings).toEqual([
    '1.2 % of the lines give no sample (6 of 500), the first of them line 496: 247 no link.',
  ]);
});

test('cells that say that nothing was measured lose no line', () => {
  const text = file(
    't_s,power_W',
    rows((t, p, k) => [t, ['', 'N/A', -999, p][k % 4]!]),
  );
  expect(read(text, { sentinel: [-999] }).statement.warnings.join()).not.toMatch(/give no sample/);
});
