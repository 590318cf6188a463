import { describe, expect, test } from 'vitest';
import { lines, read, refusal } from './hat.ts';

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
        found     2 of 4 samples at a stamp that has another value already
        expected  one value of each channel at each stamp: two are summed where they are two devices, and one is wrong where a clock stood still
        mend      give --channel what, or --channel none where the stamps of one channel are rounded, which takes the mean of each
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
