/**
 * Ugly files of known truth, each written by code: what loggers, spreadsheets and people make of one and the same
 * load. Each is read to the truth, or refused with the option that leads out, which then reads it.
 */
import { describe, expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';

/** The load: 21 samples, 0.5 s apart, whole watts; 1000 W rising by 40 W a sample to 1400 W and back. */
const n = 21;
const times_s = Array.from({ length: n }, (_, k) => k / 2);
const watts = times_s.map((_, k) => 1000 + 40 * Math.min(k, n - 1 - k));
const truth = { energy_J: 12_000, max_W: 1400, min_W: 1000, duration_s: 10 };

type Cell = string | number;
const rows = (of: (t: number, p: number, k: number) => readonly Cell[], mark = ','): string[] =>
  times_s.map((t, k) => of(t, watts[k]!, k).join(mark));
const file = (...parts: readonly (string | readonly string[])[]): string => `${parts.flat().join('\n')}\n`;

const start_s = 1_900_000_000;
const iso = (t: number): string => new Date((start_s + t) * 1000).toISOString();
const clock = (t: number): string => iso(t).slice(11, 23);
const comma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',');
const grouped = (value: number): string => value.toFixed(1).replace(/\B(?=(\d{3})+\.)/, ',');

const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'ugly', sha256: 'sum' }, { ...plainReading, ...reading });

/** Name, text, and whether the first stamp is a date. */
const readable: readonly (readonly [string, string, Partial<RecordedReading>?])[] = [
  [
    'wide, seconds and watts',
    file(
      't_s,power_W',
      rows((t, p) => [t, p]),
    ),
  ],
  [
    'long, two channels of half each, unsorted blocks',
    file(
      't_ms,gpu,power_mW',
      ['a', 'b'].flatMap((g) => rows((t, p) => [1000 * t, g, 500 * p])),
    ),
  ],
  [
    'long, channels interleaved',
    file(
      't_ms,node,power_W',
      rows((t, p) => [1000 * t, 'x', p / 2]).flatMap((r) => [r, r.replace(',x,', ',y,')]),
    ),
  ],
  [
    'several power columns, summed by number',
    file(
      'time (s);gpu0 (W);gpu1 (W)',
      rows((t, p) => [t, p / 4, (3 * p) / 4], ';'),
    ),
  ],
  [
    'semicolons and decimal commas in time and power',
    file(
      'Zeit_s;P_kW',
      rows((t, p) => [comma(t, 1), comma(p / 1000, 2)], ';'),
    ),
    { time: 'Zeit_s' },
  ],
  [
    'tabs, Windows line ends, a byte order mark',
    `\uFEFF${file(
      'time_s\tpower_kW',
      rows((t, p) => [t, p / 1000], '\t'),
    ).replaceAll('\n', '\r\n')}`,
  ],
  [
    'old Mac line ends',
    file(
      'time_s,power_W',
      rows((t, p) => [t, p]),
    ).replaceAll('\n', '\r'),
  ],
  [
    'blanks, aligned by hand',
    file(
      '  t_s    power_W',
      rows((t, p) => [`  ${t.toFixed(1)}`, p], '     '),
    ),
  ],
  [
    'bars between cells',
    file(
      't_s|power_W',
      rows((t, p) => [t, p], '|'),
    ),
  ],
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
    'time of day alone, across midnight',
    file(
      'time,power_W',
      rows((t, p) => [new Date((86_395 + t) * 1000).toISOString().slice(11, 23), p]),
    ),
  ],
  [
    'epoch in seconds',
    file(
      'timestamp,power_W',
      rows((t, p) => [start_s + t, p]),
    ),
  ],
  [
    'epoch in milliseconds',
    file(
      'ts_ms,power_W',
      rows((t, p) => [1000 * (start_s + t), p]),
    ),
  ],
  [
    'epoch in microseconds',
    file(
      'timestamp,power_W',
      rows((t, p) => [1e6 * (start_s + t), p]),
    ),
  ],
  [
    'epoch in nanoseconds',
    file(
      'ts_ns,power_W',
      rows((t, p) => [`${start_s + Math.floor(t)}${String(1e9 * (t % 1)).padStart(9, '0')}`, p]),
    ),
  ],
  [
    'a preamble, a unit row below the names, comments and markers among the rows',
    file(
      'Logger 7',
      'Serial;123;rev B',
      '',
      'Time;Power',
      's;W',
      '# armed',
      rows((t, p, k) => (k === 7 ? [`--- marker ---\n${t}`, p] : [t, p]), ';'),
    ),
  ],
  [
    'names behind a #, comments with // and %',
    file(
      '# t_s,power_W',
      '// bench 2',
      '% run 1',
      rows((t, p) => [t, p]),
    ),
  ],
  [
    'quoted cells with a comma in the name',
    file(
      '"time, s","power, W"',
      rows((t, p) => [`"${t}"`, `"${p}"`]),
    ),
    { time: 'time, s:s', power: ['power, W'], unit: 'W' },
  ],
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
  [
    'thousands with commas and a point',
    file(
      't_s;power_W',
      rows((t, p) => [t, grouped(p)], ';'),
    ),
  ],
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
  [
    'stamps that jitter on the straight lines',
    file(
      't_s,power_W',
      rows((t, p) => [t, p]),
    ).replace('0.5,1040\n', '0.4,1032\n0.5,1040\n'),
  ],
  [
    'current and voltage, wide',
    file(
      't_s,current_A,voltage_V',
      rows((t, p, k) => [t, p / (48 + (k % 3)), 48 + (k % 3)]),
    ),
  ],
  [
    'current in mA at a voltage given',
    file(
      't_s,current_mA',
      rows((t, p) => [t, 20 * p]),
    ),
    { voltage: '50 V' },
  ],
  [
    'numbered currents with numbered voltages',
    file(
      't_s,v1 (V),i1 (A),v2 (V),i2 (A)',
      rows((t, p) => [t, 50, p / 100, 25, p / 50]),
    ),
  ],
  [
    'a delimiter too many at each end, and unused columns',
    file(
      't_s,temperature_C,power_W,note,',
      rows((t, p) => [t, 41, p, 'ok', '']),
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
    'thousands parted by apostrophes',
    file(
      't_s;power_W',
      rows((t, p) => [t, grouped(p).replace(',', "'")], ';'),
    ),
  ],
  [
    'a row of units in brackets below the names',
    file(
      'Time;P1;P2',
      '[ms];[W];[W]',
      rows((t, p) => [1000 * t, p / 2, p / 2], ';'),
    ),
  ],
  [
    'a summary below the rows',
    file(
      't_s,power_W',
      rows((t, p) => [t, p]),
      'Average,1200',
      'Max,1400',
    ),
  ],
  [
    'lines about the instrument above, its words in another language',
    file(
      'Instrument: made up',
      'Serial: 1',
      'Index\tZeit (s)\tLeistung (W)',
      rows((t, p, k) => [k, t, p], '\t'),
    ),
  ],
];

describe('ugly files are read to their known truth:', () => {
  test.each(readable.map(([name, text, reading]) => ({ name, text, reading })))(
    '$name',
    ({ text, reading }) => {
      const { statement: s } = read(text, reading);
      expect(s.total.energy_J).toBeCloseTo(truth.energy_J, 3);
      expect([s.total.min_W, s.total.max_W, s.duration_s]).toEqual([
        expect.closeTo(truth.min_W, 6),
        expect.closeTo(truth.max_W, 6),
        expect.closeTo(truth.duration_s, 6),
      ]);
      expect(s.gaps_count).toBe(0);
    },
  );

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
});

/** Name, text, part of what is found, and the option that leads out. */
const open: readonly (readonly [string, string, RegExp, Partial<RecordedReading>])[] = [
  [
    'day or month first',
    file(
      'date,power_W',
      rows((t, p) => [`02/03/2030 ${clock(t)}`, p]),
    ),
    /give --dates day-first or --dates month-first/,
    { dates: 'month-first' },
  ],
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
    'whole numbers as stamps',
    file(
      'time,power_W',
      rows((t, p) => [2 * t, p]),
    ),
    /give --time time:s or --time time:ms/,
    { time: 'time:s' },
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
    'current without voltage',
    file(
      't_s,current_A',
      rows((t, p) => [t, p / 50]),
    ),
    /give --voltage COLUMN, or --voltage "50 V"/,
    { voltage: '50 V' },
  ],
  [
    'two voltages for one current',
    file(
      't_s,current_A,voltage in (V),voltage out (V)',
      rows((t, p) => [t, p / 50, 400, 50]),
    ),
    /give --voltage "voltage in \(V\)" or --voltage "voltage out \(V\)"/,
    { voltage: 'voltage out (V)' },
  ],
  [
    'two columns that may be the power',
    file(
      't_s,board_W,core_W',
      rows((t, p) => [t, p, p / 2]),
    ),
    /give --power board_W or --power core_W/,
    { power: ['board_W'] },
  ],
  [
    'days of a spreadsheet',
    file(
      'time,power_W',
      rows((t, p) => [(46_000 + t / 86_400).toFixed(12), p]),
    ),
    /give --time time:d or --time time:s/,
    { time: 'time:d' },
  ],
  [
    'a counter of samples and no stamps',
    file(
      'sample,power_W',
      rows((_, p, k) => [k, p]),
    ),
    /of a plain counter with its step, such as --time "COLUMN:10 ms"/,
    { time: 'sample:500 ms' },
  ],
  [
    'devices told apart by a column index alone, at stamps of their own',
    file(
      't_s,index,name,board power [W]',
      rows((t, p) => [t, 0, 'one kind', `${p / 2} W`]).flatMap((r, k) => [
        r,
        `${k / 2 + 1e-7},1,one kind,${watts[k]! / 2} W`,
      ]),
    ),
    /give --channel index or --channel none/,
    { channel: 'index' },
  ],
  [
    'long, rows of other things between',
    file(
      't_s,device,metric,value',
      rows((t, p) => [t, 'a', 'power_W', p]).flatMap((r, k) => [r, `${k / 2},a,temperature_C,${60 + k}`]),
    ),
    /give --power COLUMN and --unit UNIT; where its rows hold other things too, --where COLUMN=VALUE/,
    { power: ['value'], unit: 'W', where: ['metric=power_W'] },
  ],
];

describe('ugly files that leave something open are refused with the way out, which then reads them:', () => {
  test.each(open)('%s', (_, text, way, reading) => {
    expect(() => read(text)).toThrow(way);
    const { statement: s } = read(text, reading);
    const doubled = reading.time === 'time:s' ? 2 : 1;
    expect(s.total.energy_J).toBeCloseTo(truth.energy_J * doubled, 3);
  });

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
    expect(read(text, { sort: true }).statement.total.energy_J).toBeCloseTo(truth.energy_J, 3);
  });

  test('AC volts times amperes, whose power factor nobody knows', () => {
    expect(() => read(file('t_s,current_A,voltage_V', '0,1,230', '1,1,230'), { side: 'ac' })).toThrow(
      /give --power COLUMN/,
    );
  });
});

describe('what a recording shows is bounded by its slowest part:', () => {
  const at50Hz = (of: (k: number) => number, count = 500) =>
    file(
      't_s,power_W',
      Array.from({ length: count }, (_, k) => `${k / 50},${of(k)}`),
    );
  const drifting = (k: number) => 1000 + ((k * 7919) % 541);

  test('its rate', () => {
    expect(read(at50Hz(drifting)).statement).toMatchObject({
      bandwidth_Hz: expect.closeTo(22, 9),
      bandwidth_by: 'rate',
    });
  });

  test('a sensor that renews every fifth sample', () => {
    const { statement: s } = read(at50Hz((k) => drifting(Math.floor(k / 5))));
    expect(s).toMatchObject({ bandwidth_Hz: expect.closeTo(4.4, 6), bandwidth_by: 'renewal' });
    expect(s.channels[0]!.renewal_s).toBeCloseTo(0.1, 9);
    expect(
      read(
        at50Hz((k) => drifting(Math.floor(k / 5))),
        { fresh: true },
      ).statement.bandwidth_by,
    ).toBe('rate');
  });

  test('an averaging time that is known', () => {
    expect(read(at50Hz(drifting), { averaging_s: 1 }).statement).toMatchObject({
      bandwidth_Hz: expect.closeTo(0.44, 9),
      bandwidth_by: 'averaging',
    });
  });

  test('but not by plateaus of the load itself', () => {
    const plateaus = (k: number) => (k % 50 < 30 ? 1000 : 1000 + 20 * (k % 50));
    expect(read(at50Hz(plateaus)).statement.bandwidth_by).toBe('rate');
  });
});

describe('what a sample is', () => {
  const at20Hz = (of: (k: number) => number) =>
    `t_s,power_W\n${Array.from({ length: 200 }, (_, k) => `${k / 20},${of(k)}`).join('\n')}\n`;

  test('a value that stands for no reading leaves a gap, and is counted', () => {
    const text = at20Hz((k) => (k >= 100 && k < 120 ? 65535 : 1000 + (k % 7)));
    const { statement, total } = read(text, { sentinel: [65535] });
    expect(total.power_W.every((power) => power < 1010)).toBe(true);
    expect(statement.edits.map(({ what, count }) => [count, what])).toContainEqual([
      20,
      'values that stand for no reading left out',
    ]);
    expect(statement.gaps_count).toBe(1);
    expect(read(text).total.power_W.some((power) => power > 60_000)).toBe(true);
  });

  test('an instant is said with what it hides, and a mean as stated', () => {
    const text = at20Hz((k) => 1000 + (k % 7));
    const told = (samples: 'means' | 'instants' | null): string =>
      read(text, { samples }).statement.inferred.join(' ');
    expect(told('instants')).toMatch(/value at its stamp, as stated: .*half the rate may show as slow ones/);
    expect(told('means')).toMatch(/mean over its interval, as stated/);
    expect(told(null)).not.toMatch(/Each sample/);
  });
});

describe('what cannot be a recorded load is refused with the way out', () => {
  test.each([
    [
      'JSON without one sample per line',
      file('[', rows((t, p) => [`{"t_s": ${t}`, ` "power_W": ${p}}`]).join(',\n'), ']'),
      /write one object a line/,
    ],
    [
      'powers that count what is drawn as negative',
      file(
        't_s,power_W',
        rows((t, p) => [t, -p]),
      ),
      /turn the sign of the powers/,
    ],
    [
      'dates without a year',
      file(
        'time,power_W',
        rows((t, p) => [`Jan  2 ${clock(t)}`, p]),
      ),
      /write dates with their year/,
    ],
    [
      'a filter that leaves nothing',
      file(
        't_s,kind,power_W',
        rows((t, p) => [t, 'x', p]),
      ),
      /21 rows that --where leaves out/,
    ],
  ] as const)('%s', (name, text, way) => {
    const reading = name.startsWith('a filter') ? { where: ['kind=y'] } : {};
    expect(() => read(text, reading)).toThrow(way);
  });

  test('filters without a column or a value', () => {
    const text = file(
      't_s,power_W',
      rows((t, p) => [t, p]),
    );
    expect(() => read(text, { where: ['kind'] })).toThrow(/write it like --where metric=power_W/);
    expect(() => read(text, { where: ['kind=y'] })).toThrow(/kind/);
  });
});
