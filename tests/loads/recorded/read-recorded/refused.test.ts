import { describe, expect, test } from 'vitest';
import { read } from './hat.ts';

describe('readRecorded() refuses what is no recording:', () => {
  const refused = (text: string) => expect(() => read(text));

  test('an empty file', () =>
    refused('\n').toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.csv
        found     an empty file
        expected  a header and rows below it
        mend      give a file with rows
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
