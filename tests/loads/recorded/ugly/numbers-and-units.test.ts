/** How a power is written: thousands, decimals, units in the cells, signs. */
import { describe, expect, test } from 'vitest';
import { comma, file, grouped, iso, read, readOnceTold, readToTruth, refused, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    [
      'units in the cells',
      file(
        'timestamp,power.draw',
        rows((t, p) => [iso(t), ` ${p.toFixed(2)} W`]),
      ),
    ],
    [
      'mixed units in the cells',
      file(
        'timestamp,power',
        rows((t, p, k) => [iso(t), k % 2 ? `${p} W` : `${p / 1000} kW`]),
      ),
    ],
    [
      'stamps and powers that carry their units in the cell',
      file(
        'time,power',
        rows((t, p, k) => [k % 2 === 0 ? `${t} s` : `${1000 * t} ms`, `${p} W`]),
      ),
    ],
    [
      'thousands with commas and a point',
      file(
        't_s;power_W',
        rows((t, p) => [t, grouped(p)], ';'),
      ),
    ],
    [
      'decimal points with three digits and with one, below stamps with decimal commas',
      file(
        't_s;power_kW',
        rows((t, p) => [comma(t, 1), p % 200 === 0 ? (p / 1000).toFixed(3) : p / 1000], ';'),
      ),
    ],
    [
      'thousands parted by apostrophes',
      file(
        't_s;power_W',
        rows((t, p) => [t, grouped(p).replace(',', "'")], ';'),
      ),
    ],
  ]);
});

describe('refused with the option that reads them:', () => {
  readOnceTold([
    [
      'no unit of power',
      file(
        't_s,power',
        rows((t, p) => [t, p]),
      ),
      /give --unit UNIT/,
      { unit: 'W' },
    ],
    [
      'commas that may part thousands',
      file(
        't_s;power_W',
        rows((t, p) => [t, `${comma(p / 1000, 3)}`], ';'),
      ),
      /give --decimal comma where it is 1, or --decimal point where it is 1000/,
      { decimal: 'point' },
    ],
    [
      'points that may part thousands, below stamps with decimal commas',
      file(
        't_s;power_W',
        rows((t, p) => [comma(t, 1), (p / 1000).toFixed(3)], ';'),
      ),
      /such as 1.000, which may be 1000 or 1.*give --decimal comma where it is 1000, or --decimal point where it is 1/s,
      { decimal: 'comma' },
    ],
    [
      'points that may part thousands, beside decimal commas in the same column',
      file(
        't_s;power_W',
        rows((t, p) => [t, p % 200 === 0 ? (p / 1000).toFixed(3) : comma(p, 1)], ';'),
      ),
      /such as 1.000, which may be 1000 or 1/,
      { decimal: 'comma' },
    ],
  ]);
});

describe('refused with the way out:', () => {
  refused([
    [
      'powers that count what is drawn as negative',
      file(
        't_s,power_W',
        rows((t, p) => [t, -p]),
      ),
      /turn the sign of the powers/,
    ],
  ]);
});

test('a decimal mark that no number has is refused, and one that the numbers have is not', () => {
  const whole = file(
    't_s,power_W',
    rows((t, p) => [Math.round(2 * t), p]),
  );
  expect(() => read(whole, { decimal: 'point' })).toThrow(
    /numbers in power_W that have none.*leave out --dec/s,
  );
  const points = file(
    't_s,power_W',
    rows((t, p) => [t, p.toFixed(1)]),
  );
  expect(() => read(points, { decimal: 'comma' })).toThrow(/that have points.*leave out --decimal/s);
  expect(read(points, { decimal: 'point' }).statement.total.min_W).toBe(1000);
});
