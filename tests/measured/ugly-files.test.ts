/** Measured files are read as recordings are: what is none of their table is refused with its line, or said. */
import { describe, expect, test } from 'vitest';
import { channelsOf } from '../../src/engine/gauge.ts';
import type { MeasuredReading, Measurement } from '../../src/measured/measurement.ts';
import { MeasuredReader } from '../../src/measured/read-measured.ts';
import { assemble } from '../../src/network/network.ts';
import { readShipped } from '../scenario/shipped.ts';

const channels = channelsOf(assemble(readShipped('scenarios/single-step.yaml').scenario));
const plain: MeasuredReading = {
  time: null,
  dates: null,
  decimal: null,
  map: new Map(),
  sensors: new Map(),
  sentinel: [],
};

function read(text: string, reading: Partial<MeasuredReading> = {}): Measurement {
  const reader = new MeasuredReader('bench.csv', { ...plain, ...reading }, channels);
  reader.push(text);
  return reader.finish('sum');
}

/** Thirty samples of 50 V and a little more, 10 ms apart. */
const volts = Array.from({ length: 30 }, (_, k) => 50 + k / 100);
const rows = (of: (t: number, v: number, k: number) => string): string[] =>
  volts.map((v, k) => of(k / 100, v, k));
const plainRows = rows((t, v) => `${t.toFixed(2)},${v.toFixed(2)}`);
const file = (...parts: readonly (string | readonly string[])[]): string => `${parts.flat().join('\n')}\n`;
const comma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',');
const head = 't_s,A.S1.voltage_V';

function expectVolts({ columns }: Measurement): void {
  const [column] = columns;
  expect(column!.time_s.length).toBe(30);
  column!.values.forEach((value, k) => {
    expect(value).toBeCloseTo(volts[k]!, 9);
    expect(column!.time_s[k]).toBeCloseTo(k / 100, 9);
  });
}

describe('read to the known truth:', () => {
  test.each<[string, string, Partial<MeasuredReading>?]>([
    ['plain', file(head, plainRows)],
    ['JSON lines', file(rows((t, v) => JSON.stringify({ t_s: t, 'A.S1.voltage_V': v })))],
    ['a head line in a comment', file(`# ${head}`, plainRows)],
    ['the same head line again', file(head, plainRows.slice(0, 9), head, plainRows.slice(9))],
    ['a row of units below the names', file('t,A.S1.voltage', 's,V', plainRows)],
    ['columns by number', file(plainRows), { time: '1:s', map: new Map([['2', 'A.S1.voltage_V']]) }],
    [
      'semicolons and decimal commas',
      file(
        't_s;A.S1.voltage_V',
        rows((t, v) => `${comma(t, 2)};${comma(v, 2)}`),
      ),
    ],
    [
      'units in the cells',
      file(
        't_s,A.S1.voltage_V',
        rows((t, v) => `${t},${(1000 * v).toFixed(0)} mV`),
      ),
    ],
    [
      'every row twice',
      file(
        head,
        plainRows.flatMap((line) => [line, line]),
      ),
    ],
    ['rows in no order', file(head, [...plainRows].reverse())],
  ])('%s', (_, text, reading) => {
    expectVolts(read(text, reading));
  });

  test('blanks and a stated order of dates', () => {
    const dated = file(
      'date A.S1.voltage_V',
      rows((t, v) => `01/02/2030T00:00:${(10 + t).toFixed(2)} ${v.toFixed(2)}`),
    );
    expect(() => read(dated)).toThrow(/give --measured-dates day-first or --measured-dates month-first/);
    expectVolts(read(dated, { dates: 'month-first' }));
  });
});

describe('refused, with the way out:', () => {
  const half = 15;
  test.each<[string, string, RegExp, Partial<MeasuredReading>?]>([
    [
      'commas, then semicolons',
      file(
        head,
        plainRows.map((line, k) => (k < half ? line : line.replace(',', ';'))),
      ),
      /bench\.csv:17\s.*cells parted by semicolons, in a file parted by commas/s,
    ],
    [
      'another head line',
      file(head, plainRows.slice(0, half), 't_s,A.S1.voltage_mV', plainRows.slice(half)),
      /bench\.csv:17\s.*another head line among the rows/s,
    ],
    [
      'a comment that names other columns',
      file(head, plainRows.slice(0, half), '# t_s,A.S1.voltage_mV', plainRows.slice(half)),
      /bench\.csv:17\s.*another head line among the rows/s,
    ],
    [
      'a point with three digits beside decimal commas',
      file(
        't_s;A.S1.voltage_mV',
        rows((t, v) => `${comma(t, 2)};${(v / 10).toFixed(3)}`),
      ),
      /such as 5\.000, which may be 5000 or 5.*give --measured-decimal comma/s,
    ],
    [
      'a key that stands twice',
      file(rows((t, v) => `{"t_s": ${t}, "A.S1.voltage_V": ${v}, "A.S1.voltage_V": 1}`)),
      /a key that stands twice in one object: A\.S1\.voltage_V/,
    ],
    [
      'stamps that run again',
      file(head, plainRows, plainRows),
      /stamps of A\.S1\.voltage_V that jump back and run again over 0\.29.* s.*split the file there/s,
    ],
    [
      'a clock that left summer time',
      file(
        'time,A.S1.voltage_V',
        rows((_, v, k) => `2030-10-27 02:${String((45 + k) % 60).padStart(2, '0')}:00,${v}`),
      ),
      /a clock that left summer time.*export the stamps in UTC/s,
    ],
    [
      'an order of dates for stamps that are none',
      file(head, plainRows),
      /an order of day and month, day-first, for column t_s.*leave out --measured-dates/s,
      { dates: 'day-first' },
    ],
    [
      'an order of dates that have the year first',
      file(
        'time,A.S1.voltage_V',
        rows((t, v) => `2030-01-02T00:00:0${t}Z,${v}`),
      ),
      /which have the year first, and --measured-dates day-first.*leave out --measured-dates/s,
      { dates: 'day-first' },
    ],
    [
      'a decimal comma where there are points',
      file(head, plainRows),
      /a decimal comma, as stated, and numbers in A\.S1\.voltage_V such as 50\.00, whose decimal mark is a point.*leave out --measured-dec/s,
      { decimal: 'comma' },
    ],
    [
      'a decimal point where there are commas',
      file(
        'time_s;A.S1.voltage_V',
        rows((t, v) => `${comma(t, 3)};${comma(v, 2)}`),
      ),
      /a decimal point, as stated, and numbers in A\.S1\.voltage_V such as .*decimal mark is a comma.*leave out --measured-dec/s,
      { decimal: 'point' },
    ],
    [
      'a decimal mark where there is none',
      file(
        't_ms,A.S1.voltage_mV',
        rows((t, v) => `${Math.round(1000 * t)},${Math.round(1000 * v)}`),
      ),
      /numbers in A\.S1\.voltage_mV that have none.*leave out --measured-decimal/s,
      { decimal: 'point' },
    ],
    [
      'another quantity in the cells',
      file(
        head,
        rows((t, v) => `${t},${v} A`),
      ),
      /fewer than two numbers in A\.S1/,
    ],
    [
      'one stamp for all',
      file(
        head,
        rows((_, v) => `0,${v}`),
      ),
      /or all of them of one stamp/,
    ],
    [
      'a stamp years away',
      file(head, plainRows, '90000000,50'),
      /of which samples cover less than 1 %.*take out the rows whose stamp is wrong/s,
    ],
    [
      'a channel named twice',
      file(
        `${head},A.S1.voltage_V`,
        rows((t, v) => `${t},${v},7`),
      ),
      /2 columns or more named A\.S1\.voltage_V.*names of their own/s,
    ],
    ['no time column', file('a,A.S1.voltage_V', plainRows), /give --measured-time COLUMN/],
    ['no head line', file(plainRows), /--measured-time 1:s --map 2=A\.S1\.voltage_V/],
    ['zero bytes', `${file(head, plainRows)}\0`, /not a text file/],
  ])('%s', (_, text, why, reading) => {
    expect(() => read(text, reading)).toThrow(why);
  });

  test('a map of the column that holds the stamps', () => {
    const map = new Map([['t_s', 'A.S1.voltage_V']]);
    expect(() => read(file(head, plainRows), { map })).toThrow(
      /--map of t_s, which holds the stamps.*another column of stamps by --measured-time/s,
    );
  });

  test('a channel that none is near to is told how channels are called', () => {
    const map = new Map([['A.S1.voltage_V', 'zz']]);
    expect(() => read(file(head, plainRows), { map })).toThrow(/mend {6}name one such as A\.S1\.voltage_V,/);
  });
});

describe('said, and left out or kept:', () => {
  test('a last line that is cut is left out', () => {
    const text = file(head, plainRows).slice(0, -3);
    const { columns, remarks } = read(text);
    expect(columns[0]!.values.length).toBe(29);
    expect(remarks.join()).toMatch(/the last line, which no line break ends/);
  });

  test('a stamped line of sums is a warning', () => {
    const sum = volts.reduce((a, b) => a + b);
    expect(read(file(head, plainRows, `0.30,${sum.toFixed(2)}`)).warnings).toEqual([
      'The last sample of A.S1.voltage_V, 1504, is the sum of all those before it: a line of totals, taken as a sample.',
    ]);
  });

  test('lines that give no sample are a warning where they are many', () => {
    expect(read(file(head, plainRows, 'no link', '0.31,no link')).warnings[0]).toMatch(
      /^6.3 % of the lines give no sample \(2 of 32\), the first of them line 32/,
    );
    const torn = rows((t, v, k) => (k < 25 ? `${t},${v}` : `${comma(t, 2)},${comma(v, 2)}`));
    expect(read(file(head, torn)).warnings[0]).toMatch(/\(5 of 30\), the first of them line 27: 0 25 50 25/);
    expect(read(file(head, plainRows)).warnings).toEqual([]);
  });

  test('numbers beyond all measure are left out, and the row is not told as missing', () => {
    const { columns, remarks, warnings } = read(
      file(
        head,
        rows((t, v, k) => `${t},${k === 9 ? '1e30' : k === 20 ? 'inf' : v}`),
      ),
    );
    expect(columns[0]!.values.length).toBe(28);
    expect(remarks).toContain('Left out: 2 rows or cells without a number.');
    expect(warnings.join()).not.toMatch(/missing/);
  });

  test('rows that are sorted are counted', () => {
    expect(read(file(head, [...plainRows].reverse())).remarks).toContain(
      'Sorted by stamp: 29 rows before the row above.',
    );
  });
});
