import { describe, expect, test } from 'vitest';
import { plainReading, RecordedReader, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';

const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...reading });

const lines = (...rows: string[]) => `${rows.join('\n')}\n`;

const refusal = (text: string, reading: Partial<RecordedReading> = {}) => {
  try {
    read(text, reading);
  } catch (error) {
    return (error as Error).message;
  }
  return 'read without a word';
};

/** Energy of 100 W rising to 300 W and back within 0.4 s, in steps of 0.1 s: 20 + 4 · … by the trapezoid. */
const hat = {
  stamps: [0, 1, 2, 3, 4],
  watts: [100, 200, 300, 200, 100],
  energy_J: 0.1 * (150 + 250 + 250 + 150),
};

describe('readRecorded() reads ugly files to their known truth:', () => {
  test('long form, microseconds from 1970, milliwatts, blocks of one device after the other', () => {
    const rows = ['0', '1'].flatMap((device) =>
      hat.stamps.map((k, i) => `${1795591743000000 + k * 100000},${device},${hat.watts[i]! * 1000}`),
    );
    const { statement: s } = read(lines('timestamp_us,accelerator,power_mW', ...rows));
    expect(s.channels.map((c) => [c.name, c.energy_J])).toEqual([
      ['0', expect.closeTo(hat.energy_J, 9)],
      ['1', expect.closeTo(hat.energy_J, 9)],
    ]);
    expect(s.total.energy_J).toBeCloseTo(2 * hat.energy_J, 9);
    expect(s.total.max_W).toBe(600);
    expect([s.rows, s.unsorted_count, s.duplicates_count, s.gaps_count]).toEqual([10, 1, 0, 0]);
    expect(s.start).toBe('2026-11-25T07:29:03.000000Z');
    expect(s.duration_s).toBe(0.4);
    expect(s.rate_median_Hz).toBeCloseTo(10, 9);
    expect(s.bandwidth_Hz).toBeCloseTo(4.4, 9);
  });

  test('wide form with numbered columns, which are summed', () => {
    const { statement: s } = read(lines('t_s,gpu0_W,gpu1_W', '0,100,50', '0.5,100,70', '1,100,50'));
    expect(s.channels.map((c) => [c.name, c.mean_W])).toEqual([
      ['gpu0_W', 100],
      ['gpu1_W', 60],
    ]);
    expect(s.total).toMatchObject({ mean_W: 160, min_W: 150, max_W: 170, energy_J: 160 });
    expect(s.start).toBeNull();
  });

  test('dates with offsets, cells with their unit, tabs and Windows line ends', () => {
    const text =
      'time\tpower.draw\r\n2030-01-31 12:00:00.000+01:00\t100 W\r\n2030-01-31T11:00:00.5Z\t0.2 kW\r\n';
    const { statement: s } = read(text);
    expect(s.start).toBe('2030-01-31T11:00:00.000000Z');
    expect(s.total.energy_J).toBe(75);
    expect(s.inferred).toContain('Power cells carry their unit (2 cells).');
  });

  test('dates without a zone are read as UTC, and it is said', () => {
    const { statement: s } = read(lines('date,power (kW)', '2030-03-31T01:59:59,1', '2030-03-31T02:00:01,1'));
    expect(s.duration_s).toBe(2);
    expect(s.total.energy_J).toBe(2000);
    expect(s.inferred).toContain('Dates without a zone are read as UTC.');
  });

  test('nanoseconds from 1970 keep their nanoseconds', () => {
    const { total } = read(lines('ts_ns,power_W', '1795591743860052001,1', '1795591743860052004,1'));
    expect(total.time_s[1]).toBe(3e-9);
  });

  test('a column named time in broken seconds is seconds, and it is said', () => {
    const { statement: s } = read(lines('time,power_W', '0.0,1', '0.25,1', '0.5,1'));
    expect(s.duration_s).toBe(0.5);
    expect(s.inferred).toContain('Stamps in time are seconds: fractions less than 1 apart.');
  });

  test('seconds from 1970 without a unit in the name are known by their size', () => {
    const { statement: s } = read(lines('timestamp,power_W', '1795591743.25,1', '1795591743.75,3'));
    expect(s.start).toBe('2026-11-25T07:29:03.250000Z');
    expect(s.total.energy_J).toBe(1);
  });

  test('semicolons and decimal commas', () => {
    const { statement: s } = read(lines('t_s;power_W', '0;99,5', '1;100,5', '2;99,5'));
    expect(s.total.mean_W).toBe(100);
    expect(s.inferred).toContain('Commas in powers are decimal commas (3 cells).');
  });

  test('empty, non-numeric and negative powers are left out, counted and never zero', () => {
    const { statement: s, total } = read(
      lines('t_s,power_W', '0,100', '1,', '2,N/A', '3,-5', '4,100', 'oops,100', '5,100', '6,1,2,3'),
    );
    expect(total.power_W.every((p) => p === 100)).toBe(true);
    expect(s.rows).toBe(8);
    expect(s.edits.map((e) => [e.count, e.what])).toEqual([
      [1, 'row without a readable stamp left out'],
      [1, 'row with more cells than the header left out'],
      [1, 'empty power left out'],
      [1, 'power that is no number left out'],
      [1, 'negative power left out'],
      [1, 'gap bridged by a straight line'],
    ]);
    expect(s.edits[4]).toMatchObject({ energy_before_J: 3 * 47.5 + 47.5 + 100, energy_after_J: 500 });
  });

  test('a gap is bridged by a straight line, counted with its time and energy, and is no zero load', () => {
    const rows = [0, 1, 2, 3, 4, 5, 6, 7, 20, 21, 22].map((t) => `${t},${t < 20 ? 100 : 200}`);
    const { statement: s } = read(lines('t_s,power_W', ...rows));
    expect([s.gaps_count, s.gap_total_s]).toEqual([1, 13]);
    expect(s.total.min_W).toBe(100);
    expect(s.edits).toEqual([
      {
        what: 'gap bridged by a straight line',
        count: 1,
        energy_before_J: 700 + 400,
        energy_after_J: 700 + 13 * 150 + 400,
      },
    ]);
  });

  test('a dropout of all channels at once is one gap', () => {
    const rows = [0, 1, 2, 3, 4, 5, 20, 21, 22].map((t) => `${t},10,20`);
    expect(read(lines('t_s,gpu0_W,gpu1_W', ...rows)).statement).toMatchObject({
      gaps_count: 1,
      gap_total_s: 15,
    });
  });

  test('equal stamps are merged to the mean of their powers', () => {
    const { statement: s, total } = read(lines('t_s,power_W', '0,100', '1,100', '1,300', '2,100', '2,100'));
    expect(s.duplicates_count).toBe(2);
    expect([...total.power_W]).toEqual([100, 200, 100]);
    expect(s.edits[0]).toEqual({
      what: 'samples of one stamp merged to their mean',
      count: 2,
      energy_before_J: 300,
      energy_after_J: 300,
    });
  });

  test('stamps that run backward are counted and sorted', () => {
    const { statement: s, total } = read(lines('t_s,power_W', '2,30', '0,10', '1,20', '3,40'));
    expect(s.unsorted_count).toBe(1);
    expect([...total.time_s]).toEqual([0, 1, 2, 3]);
    expect([...total.power_W]).toEqual([10, 20, 30, 40]);
  });

  test('channels with stamps of their own keep every kink, and the energies agree over the common span', () => {
    const { statement: s, total } = read(
      lines('t_s,channel,power_W', '0,a,0', '2,a,200', '4,a,0', '1,b,10', '3,b,30', '5,b,10'),
    );
    expect([...total.time_s]).toEqual([1, 2, 3, 4]);
    expect([...total.power_W]).toEqual([110, 220, 130, 20]);
    expect(s.total).toMatchObject({ from_s: 1, to_s: 4, energy_J: 165 + 175 + 75 });
    expect(s.edits.at(-1)?.what).toBe(
      'channels summed at every stamp of any, ends covered by some only (up to 1.00 s) left out',
    );
  });

  test('a byte order mark, comments, blank lines and quoted cells', () => {
    const { statement: s } = read('\uFEFF# made by hand\n\n"t_s","power, total (W)"\n"0","100"\n\n1,"100"\n');
    expect(s.total.energy_J).toBe(100);
  });

  test('column names behind a #, and a delimiter too many at every line end', () => {
    const { statement: s } = read('# t_s;power_W\n0;100\n1;300\n');
    expect(s.total.energy_J).toBe(200);
    expect(s.inferred).toContain('Columns are named by a line that starts with #.');
    expect(read('t_s,power_W,\n0,100,\n1,300,\n').statement.total.energy_J).toBe(200);
  });

  test('samples of exactly 0 W stay and are counted', () => {
    const { statement: s } = read(lines('t_s,power_W', '0,100', '1,0', '2,100'));
    expect([s.total.min_W, s.channels[0]!.zero_count]).toEqual([0, 1]);
  });

  test('a frozen sensor, a flat top and the smallest step are named', () => {
    const watts = [1, 2, 5, 5, 5, 5, 3, 3, 2.5];
    const { statement: s } = read(lines('t_s,power_W', ...watts.map((p, t) => `${t},${p}`)));
    expect(s.channels[0]).toMatchObject({ stale_count: 4, stale_s: 3, flat_top_count: 4, resolution_W: 0.5 });
    expect(s.channels[0]!.repeat_ratio).toBe(0.5);
  });

  test('text that arrives in pieces of any size gives the same as in one', () => {
    const text =
      't_s,device,power_mW\r\n0,a,100\r\n0.1,"b",200\r\n0.2,a,300\r\n0.3,b,400\r\n0.4,a,1\r\n0.5,b,2\r\n';
    const whole = read(text);
    for (let size = 1; size < 12; size++) {
      const reader = new RecordedReader('load.csv', plainReading);
      for (let at = 0; at < text.length; at += size) reader.push(text.slice(at, at + size));
      expect(reader.finish('sum')).toEqual(whole);
    }
  });
});

describe('readRecorded() asks for the option that settles what is unclear:', () => {
  test('power without a unit', () => {
    const text = lines('t_s,power', '0,100', '1,100');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     column power without a unit
        expected  power in µW, mW, W, kW or MW
        mend      give --unit UNIT, for example --unit W
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { unit: 'kW' }).statement.total.energy_J).toBe(100e3);
  });

  test('two columns that may be the power', () => {
    const text = lines('t_s,board_W,core_W', '0,100,60', '1,100,60');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     2 columns that may be the power: board_W, core_W
        expected  one power column, or several that are to be summed
        mend      give --power board_W or --power core_W (repeat --power to sum)
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { power: ['board_W'] }).statement.total.energy_J).toBe(100);
    expect(read(text, { power: ['board_W', 'core_W'] }).statement.total.energy_J).toBe(160);
  });

  test('two columns that may be the time', () => {
    const text = lines('timestamp_ms,elapsed_s,power_W', '0,0,1', '1000,1,1');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     2 columns that may be the time
        expected  one time column
        mend      give --time timestamp_ms or --time elapsed_s; of a date beside a time of day --time timestamp_ms+elapsed_s
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { time: 'elapsed_s' }).statement.duration_s).toBe(1);
  });

  test('whole numbers as time without a unit', () => {
    const text = lines('time,power_W', '0,1', '20,1', '40,1');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     column time without a unit
        expected  stamps in s, ms, us or ns, or a counter whose step is known
        mend      give --time time:s or --time time:ms (or us, ns, min, h, d; or a step such as "time:10 ms")
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { time: 'time:ms' }).statement.duration_s).toBe(0.04);
  });

  test('a time whose name and size disagree', () => {
    expect(
      refusal(lines('timestamp_ms,power_W', '1795591743000000,1', '1795591743500000,1')),
    ).toMatchInlineSnapshot(`
      "load.csv:1
        found     column timestamp_ms in ms by its name, but 1795591743000000 is a date in us
        expected  a name that fits the stamps
        mend      give --time timestamp_ms:us or --time timestamp_ms:ms
      1 problem in 1 file. Nothing was run."
    `);
  });

  test('mw, which may be milli or mega', () => {
    expect(refusal(lines('t_s,power_mw', '0,1', '1,1'))).toMatchInlineSnapshot(`
      "load.csv:1
        found     unit mw, milliwatt or megawatt
        expected  one of µW, mW, W, kW, MW
        mend      give --unit mW or --unit MW
      1 problem in 1 file. Nothing was run."
    `);
  });

  test('two columns that may name the channel', () => {
    const text = lines('t_s,host,gpu,power_W', '0,h,0,1', '1,h,0,1');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     2 columns that may name the channel
        expected  at most one
        mend      give --channel host or --channel gpu or --channel none
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { channel: 'gpu' }).statement.channels.map((c) => c.name)).toEqual(['0']);
    expect(read(text, { channel: 'none' }).statement.channels.map((c) => c.name)).toEqual(['power_W']);
  });

  test('rows of several devices mixed under a name that says nothing', () => {
    const text = lines('t_s,what,power_W', '0,a,1', '0,b,9', '1,a,1', '1,b,9');
    expect(refusal(text)).toMatchInlineSnapshot(`
      "load.csv:1
        found     rows that read like several channels mixed, and no column known to name them
        expected  a column that names the channel of each row
        mend      give --channel what or --channel none
      1 problem in 1 file. Nothing was run."
    `);
    expect(read(text, { channel: 'what' }).statement.total.mean_W).toBe(10);
  });

  test('commas that may part thousands', () => {
    expect(refusal(lines('t_s;power_mW', '0;71,585', '1;71,887'))).toMatchInlineSnapshot(`
      "load.csv:1
        found     numbers in power_mW such as 71,585, which may be 71.585 or 71585
        expected  commas and points that mean one thing
        mend      give --decimal comma where it is 71.585, or --decimal point where it is 71585
      1 problem in 1 file. Nothing was run."
    `);
  });

  test('an option that names no column, all at once', () => {
    expect(
      refusal(lines('t_s,power_W', '0,1', '1,1'), { time: 'when', power: ['draw'] }),
    ).toMatchInlineSnapshot(`
      "load.csv:1
        found     no column named when
        expected  one of t_s, power_W
        mend      give --time with one of these names, or with a number from 1 to 2
      load.csv:1
        found     no column named draw
        expected  one of t_s, power_W
        mend      give --power with one of these names, or with a number from 1 to 2
      2 problems in 1 file. Nothing was run."
    `);
  });

  test('a unit that is none', () => {
    expect(refusal(lines('t_s,power_W', '0,1', '1,1'), { unit: 'horses' })).toMatchInlineSnapshot(`
      "load.csv:1
        found     unit horses
        expected  one of µW, mW, W, kW, MW
        mend      give --unit with one of these
      1 problem in 1 file. Nothing was run."
    `);
  });
});

describe('readRecorded() refuses what is no recording:', () => {
  const refused = (text: string) => expect(() => read(text));

  test('an empty file', () =>
    refused('\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv
        found     an empty file
        expected  a header and rows below it
        mend      give a recorded load
      1 problem. Nothing was run.]
    `));
  test('a header alone', () =>
    refused('t_s,power_W\n').toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.csv:1
      found     a header without rows
      expected  at least two rows
      mend      record for longer, or check the export
    1 problem in 1 file. Nothing was run.]
  `));
  test('one row', () =>
    refused('t_s,power_W\n0,1\n').toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.csv:1
      found     one usable row
      expected  at least two rows with different stamps in each channel
      mend      record for longer, or check which column names the channel
    1 problem in 1 file. Nothing was run.]
  `));
  test('no header', () =>
    refused('0,1\n1,1\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv:1
        found     values in the first row: 0, 1
        expected  a header that names the columns
        mend      count them from 1, such as --time 1:s --power 2 --unit W, or put a first line such as time_s,power_W
      1 problem in 1 file. Nothing was run.]
    `));
  test('no power column', () =>
    refused('t_s,temperature_C\n0,1\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv:1
        found     no power column among t_s, temperature_C
        expected  a column of power with its unit in the name
        mend      give --power COLUMN and --unit UNIT; where its rows hold other things too, --where COLUMN=VALUE
      1 problem in 1 file. Nothing was run.]
    `));
  test('no time column', () =>
    refused('row,power_W\n0,1\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv:1
        found     no time column among row, power_W
        expected  a column of stamps
        mend      give --time COLUMN, by name or number; of a plain counter with its step, such as --time "COLUMN:10 ms"; of a date and a time of day --time DATE+TIME
      1 problem in 1 file. Nothing was run.]
    `));
  test('bytes of zero', () =>
    refused('t_s,po\0wer_W\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv
        found     zero bytes: not a text file
        expected  delimited text in UTF-8
        mend      export the recording as CSV
      1 problem. Nothing was run.]
    `));
  test('rows that are all bad', () =>
    refused('t_s,power_W\n0,-1\n1,x\n2,\nx,1\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv:1
        found     4 rows, none usable: 1 bad stamp, 1 empty power, 1 power that is no number and 1 negative power
        expected  rows with a stamp and a power of 0 or more
        mend      check the export, or give --time COLUMN and --power COLUMN
      1 problem in 1 file. Nothing was run.]
    `));
  test('channels that never meet', () =>
    refused('t_s,channel,power_W\n0,a,1\n1,a,1\n5,b,1\n6,b,1\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv:1
        found     channels that never run at the same time: a, b
        expected  channels of one and the same time, so that they can be summed
        mend      give one channel of the file, or --channel none
      1 problem in 1 file. Nothing was run.]
    `));
});

describe('what is thin or filled in is said:', () => {
  test('a single column is called one, with what is missing beside it', () => {
    expect(refusal('timestamp_us\n1\n2\n')).toContain('one column, timestamp_us');
    expect(refusal('timestamp_us\n1\n2\n')).toContain('export the power with the stamps');
    expect(refusal('power_W\n1\n2\n')).toContain('export the stamps with it');
    expect(refusal('1\n2\n3\n')).toContain('values in the first row: 1');
  });

  test('one of a thing is counted as one', () => {
    const rows = Array.from({ length: 30 }, (_, k) => `${k},${k === 4 ? -5 : 100}`);
    const { statement } = read(lines('t_s,power_W', ...rows));
    expect(statement.edits.map(({ count, what }) => `${count} ${what}`)).toEqual([
      '1 negative power left out',
      '1 gap bridged by a straight line',
    ]);
    expect(refusal(lines('t_s,power_W', '0,-1'))).toContain('1 row, none usable: 1 negative power\n');
  });

  test('a bridge that carries more than 1 % of the energy is a warning, one that carries less is not', () => {
    const bridged = (seconds: number) => {
      const rows = Array.from({ length: 1000 }, (_, k) => `${k < 500 ? k : k + seconds},100`);
      return read(lines('t_s,power_W', ...rows)).statement;
    };
    expect(bridged(7).edits).toHaveLength(1);
    expect(bridged(7).warnings).toEqual([]);
    expect(bridged(100).warnings).toEqual([
      '1 gap bridged by a straight line: that adds 9.2 % of the energy, which was not recorded.',
    ]);
  });
});
