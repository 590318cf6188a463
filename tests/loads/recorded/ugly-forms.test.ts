/**
 * More ugly files of known truth: without names, with names that stand twice, as JSON lines, with sentinels, with
 * numbers beyond all measure. Each is read to the truth, or refused with the option that leads out.
 */
import { describe, expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';

/** The load: 21 samples, 0.5 s apart; 1000 W rising by 40 W a sample to 1400 W and back: 12 kJ. */
const times_s = Array.from({ length: 21 }, (_, k) => k / 2);
const watts = times_s.map((_, k) => 1000 + 40 * Math.min(k, 20 - k));

const lines = (of: (t: number, p: number, k: number) => string): string =>
  `${times_s.map((t, k) => of(t, watts[k]!, k)).join('\n')}\n`;
const iso = (t: number): string => new Date((1_900_000_000 + t) * 1000).toISOString();
const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'ugly', sha256: 'sum' }, { ...plainReading, ...reading });

type Case = readonly [string, string, Partial<RecordedReading>?];
const byNumber = { time: '1:s', power: ['2'], unit: 'W' };

const readable: readonly Case[] = [
  ['no header, columns by number', lines((t, p) => `${t},${p}`), byNumber],
  ['no header, dates', lines((t, p) => `${iso(t)};${p}`), { ...byNumber, time: '1' }],
  ['no header, a sample without a value first', `-0.5,NaN\n${lines((t, p) => `${t},${p}`)}`, byNumber],
  ['no header, units in the cells', lines((t, p) => `${t} s,${p} W`), { time: '1', power: ['2'] }],
  [
    'no header, long form',
    lines((t, p) => `${t},a,${p / 2}\n${t},b,${p / 2}`),
    { time: '1:s', power: ['3'], channel: '2', unit: 'W' },
  ],
  [
    'no header, current and voltage',
    lines((t, p) => `${t}\t${p / 50}\t50`),
    { time: '1:s', current: ['2'], voltage: '3', unit: 'A' },
  ],
  ['one name twice, by number', `t_s,power_W,power_W\n${lines((t, p) => `${t},7,${p}`)}`, { power: ['3'] }],
  [
    'one name twice, summed',
    `t_s,power_W,power_W\n${lines((t, p) => `${t},${p / 4},${(3 * p) / 4}`)}`,
    { power: ['2', '3'] },
  ],
  ['a column without a name', `t_s,\n${lines((t, p) => `${t},${p}`)}`, { power: ['2'], unit: 'W' }],
  ['JSON lines', lines((t, p) => JSON.stringify({ t_s: t, power_W: p }))],
  ['JSON lines, nested', lines((t, p) => JSON.stringify({ t_s: t, board: { power_W: p, rail: 'x' } }))],
  [
    'JSON lines, nested, words beside the power',
    lines((t, p) => JSON.stringify({ t_s: t, power: { draw_W: p, unit: 'W', state: 'P0' } })),
  ],
  [
    'JSON lines, keys that change their order, and one that comes later',
    lines((t, p, k) =>
      JSON.stringify(k % 2 ? { power_W: p, t_s: t } : { t_s: t, power_W: p, ...(k > 9 ? { note: 1 } : {}) }),
    ),
  ],
  [
    'JSON lines, an epoch in nanoseconds beyond what a number keeps',
    lines((t, p) => `{"ts_ns": ${1_900_000_000_000_000_001n + BigInt(1e9 * t)}, "power_W": ${p}}`),
  ],
  ['JSON lines of arrays', lines((t, p) => JSON.stringify([t, p])), byNumber],
  [
    'JSON lines, some broken',
    lines((t, p, k) => `${JSON.stringify({ t_s: t, power_W: p })}${k === 3 ? '\n{"t_s": 1.6, "po' : ''}`),
  ],
  ['a header behind # over dates', `# time,power_W\n${lines((t, p) => `${iso(t)},${p}`)}`],
  [
    'comments of the same width above the header behind #',
    `# rev,7\n# serial,12\n# t_s,power_W\n${lines((t, p) => `${t},${p}`)}`,
  ],
  ['a # line before a plain header', `# made by bench 2\nt_s,power_W\n${lines((t, p) => `${t},${p}`)}`],
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
];

describe('ugly forms are read to their known truth:', () => {
  test.each(readable.map(([name, text, reading]) => ({ name, text, reading })))(
    '$name',
    ({ text, reading }) => {
      const { statement: s } = read(text, reading);
      expect(s.total.energy_J).toBeCloseTo(12_000, 4);
      expect([s.total.min_W, s.total.max_W, s.duration_s]).toEqual([
        expect.closeTo(1000, 6),
        expect.closeTo(1400, 6),
        expect.closeTo(10, 6),
      ]);
    },
  );
});

describe('ugly forms that leave something open are refused with the way out:', () => {
  test.each<[string, string, RegExp]>([
    ['no header', lines((t, p) => `${t},${p}`), /count them from 1, such as --time 1:s --power 2 --unit W/],
    ['no header, dates', lines((t, p) => `${iso(t)},${p}`), /count them from 1/],
    [
      'one name twice',
      `t_s,power_W,power_W\n${lines((t, p) => `${t},7,${p}`)}`,
      /give --power 2 or --power 3/,
    ],
    [
      'numbered names of which one stands twice',
      `t_s,gpu0_W,gpu0_W,gpu1_W\n${lines((t, p) => `${t},${p},${p},${p}`)}`,
      /give --power 2 or --power 3 or --power gpu1_W/,
    ],
    [
      'two columns of one name as stamps',
      `time,time,power_W\n${lines((t, p) => `${t},${t},${p}`)}`,
      /give --time 1 or --time 2/,
    ],
    [
      'an array of objects',
      `[${lines((t, p) => `{"t_s": ${t}, "power_W": ${p}},`)}]`,
      /write one object a line/,
    ],
    ['an object over several lines', '{\n"t_s": 0,\n"power_W": 5\n}', /write one object a line/],
    [
      'a stamp years after the others',
      `t_s,power_W\n${lines((t, p) => `${t},${p}`)}1900000000,1000\n`,
      /take out the rows whose stamp is wrong/,
    ],
  ])('%s', (_, text, way) => {
    expect(() => read(text)).toThrow(way);
  });

  test('a name that stands twice, asked for by name', () => {
    expect(() => read('t_s,power_W,power_W\n0,1,2\n1,1,2\n', { power: ['power_W'] })).toThrow(
      /give --power 2 or --power 3, by its number/,
    );
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

describe('a stated averaging time', () => {
  const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;

  test.each([
    [
      { averaging_s: 1, samples: 'instants' },
      /samples that are instants and means over 1 s.*leave out --samples/s,
    ],
    [{ averaging_s: 3600 }, /means over 3.6 ks in a recording of 10 s.*check the unit of --averaging/s],
  ] as const)('that cannot be is refused with the way out: %o', (reading, way) => {
    expect(() => read(text, reading)).toThrow(way);
  });

  test('shorter than the interval is said, and leaves the bandwidth to the rate', () => {
    const { statement } = read(text, { averaging_s: 0.01 });
    expect(statement.inferred.join()).toContain(
      'Each sample is the mean over 10 ms, as stated, of an interval of 500 ms',
    );
    expect([statement.bandwidth_by, statement.bandwidth_Hz]).toEqual(['rate', expect.closeTo(0.88, 2)]);
  });

  test('as long as the interval, or longer, is taken as it stands', () => {
    for (const [averaging_s, by] of [
      [0.5, 'rate'],
      [2, 'averaging'],
    ] as const) {
      const { statement } = read(text, { averaging_s });
      expect([statement.bandwidth_by, statement.inferred.join().includes('Each sample')]).toEqual([
        by,
        false,
      ]);
    }
  });
});

describe('rates:', () => {
  test('rounded stamps do not make a meter faster than it is', () => {
    // 833 samples a second, stamps in whole milliseconds: the median says 1000.
    const rows = Array.from(
      { length: 3000 },
      (_, k) => `${Math.round(1.2 * k)},${1000 + ((k * 7919) % 541)}`,
    );
    const { statement: s } = read(`t_ms,power_W\n${rows.join('\n')}\n`);
    expect([s.rate_median_Hz, s.rate_mean_Hz]).toEqual([expect.closeTo(1000, 6), expect.closeTo(833.3, 0)]);
    expect([s.bandwidth_Hz, s.bandwidth_by]).toEqual([expect.closeTo(0.44 / 1.2e-3, 0), 'mean rate']);
  });

  test('gaps do not make it slower', () => {
    const rows = Array.from({ length: 1000 }, (_, k) => `${k + (k > 500 ? 700 : 0)},${1000 + (k % 7)}`);
    const { statement: s } = read(`t_ms,power_W\n${rows.join('\n')}\n`);
    expect([s.rate_mean_Hz, s.bandwidth_by]).toEqual([expect.closeTo(1000, 6), 'rate']);
  });

  test('a sentinel that stands nowhere is said', () => {
    const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;
    const said = (sentinel: number[]): string => read(text, { sentinel }).statement.inferred.join();
    expect(said([-1, 1280])).toContain('No value is -1, which was stated');
    expect(said([1280])).not.toContain('No value is');
  });

  test('--fresh leaves its trace', () => {
    const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;
    expect(read(text, { fresh: true }).statement.inferred.join()).toContain('as asked (--fresh)');
    expect(read(text).statement.inferred.join()).not.toContain('--fresh');
  });
});
