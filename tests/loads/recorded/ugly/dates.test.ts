/** Stamps that are dates or times of day. */
import { describe, expect, test } from 'vitest';
import {
  clock,
  file,
  iso,
  lines,
  read,
  readOnceTold,
  readToTruth,
  refused,
  rows,
  start_s,
} from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    [
      'ISO with a zone',
      file(
        'time,power_W',
        rows((t, p) => [iso(t + 7200).replace('Z', '+02:00'), p]),
      ),
    ],
    [
      'ISO without a zone, a blank instead of T, comma for the broken second',
      file(
        'time;power_W',
        rows((t, p) => [iso(t).replace('T', ' ').replace('Z', '').replace('.', ','), p], ';'),
      ),
    ],
    [
      'dates with dots, day first',
      file(
        'Datum;P_W',
        rows((t, p) => [`17.03.2030 ${clock(t)}`, p], ';'),
      ),
      { time: 'Datum' },
    ],
    [
      'dates with slashes, a day above 12 that settles the order',
      file(
        'date,power_W',
        rows((t, p) => [`03/17/2030 ${clock(t)}`, p]),
      ),
    ],
    [
      'named months and half days',
      file(
        'date,power_W',
        rows((t, p) => [
          `17-Mar-2030 0${3 + Math.floor(t / 3600)}:10:${(10 + t).toFixed(1).padStart(4, '0')} PM`,
          p,
        ]),
      ),
    ],
    [
      'date and time in two columns',
      file(
        'Date,Time,power_W',
        rows((t, p) => ['2030-03-17', clock(t), p]),
      ),
    ],
    [
      'date and time of day, other words',
      `Datum;Uhrzeit;P_W\n${lines((t, p) => `17.03.2030;${iso(t).slice(11, 23)};${p}`)}`,
    ],
    [
      'date and time of day, by number',
      `day,at,power_W\n${lines((t, p) => `2030-03-17,${iso(t).slice(11, 23)},${p}`)}`,
      { time: '1+2' },
    ],
    [
      'date and time of day, by name, with a zone word',
      `Date (UTC),Time (UTC),power_W\n${lines((t, p) => `2030-03-17,${iso(t).slice(11, 23)},${p}`)}`,
    ],
    [
      'time of day alone, across midnight',
      file(
        'time,power_W',
        rows((t, p) => [new Date((86_395 + t) * 1000).toISOString().slice(11, 23), p]),
      ),
    ],
  ]);
});

describe('refused with the option that reads them:', () => {
  readOnceTold([
    [
      'day or month first',
      file(
        'date,power_W',
        rows((t, p) => [`02/03/2030 ${clock(t)}`, p]),
      ),
      /give --dates day-first or --dates month-first/,
      { dates: 'month-first' },
    ],
  ]);
});

describe('an order of day and month that the stamps have no use for is refused:', () => {
  test.each([
    ['numbers', (t: number) => String(t), 'month-first', /for column t_s that holds no dates/],
    ['the year first', iso, 'day-first', /which have the year first, and --dates day-first/],
    ['a day above 12', (t: number) => `13/03/2030 ${clock(t)}`, 'month-first', /day-first by their form/],
  ] as const)('%s', (_, stamp, dates, why) => {
    const text = file(
      't_s,power_W',
      rows((t, p) => [stamp(t), p]),
    );
    expect(() => read(text, { dates })).toThrow(why);
    expect(() => read(text, { dates })).toThrow(/leave out --dates/);
  });
});

describe('refused with the way out:', () => {
  refused([
    [
      'dates without a year',
      file(
        'time,power_W',
        rows((t, p) => [`Jan  2 ${clock(t)}`, p]),
      ),
      /write dates with their year/,
    ],
  ]);

  test('a clock that was put back in autumn', () => {
    const local = (k: number) =>
      new Date((start_s + k * 60 - (k >= 30 ? 3600 : 0)) * 1000).toISOString().slice(0, 19);
    const text = file(
      'time,power_W',
      Array.from({ length: 90 }, (_, k) => `${local(k)},${1000 + k}`),
    );
    expect(() => read(text)).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: ugly:1
        found     dates without a zone that jump back by one hour: a clock that left summer time
        expected  stamps that rise, or carry their zone
        mend      export the stamps in UTC, or give --sort where the rows are merely out of order
      1 problem in 1 file. Nothing was run.]
    `);
    expect(read(text, { sort: true }).statement.unsorted_count).toBe(1);
  });
});
