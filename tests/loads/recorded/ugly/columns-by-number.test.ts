/** Columns without a name, or whose name stands twice: told by number. */
import { describe, expect, test } from 'vitest';
import { byNumber, iso, lines, read, readToTruth, refused } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
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
  ]);
});

describe('refused with the way out:', () => {
  refused([
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
  ]);

  test.each([
    ['a column by its name and its number', { power: ['power_W', '2'] }, /power_W named twice by --power/],
    [
      'a voltage beside a power',
      { voltage: '50 V' },
      /a voltage, 50 V, for power_W, which is a power.*leave out/s,
    ],
  ])('%s', (_, reading, why) => {
    expect(() => read('t_s,power_W\n0,1\n1,1\n', reading)).toThrow(why);
  });

  test('a name that stands twice, asked for by name', () => {
    expect(() => read('t_s,power_W,power_W\n0,1,2\n1,1,2\n', { power: ['power_W'] })).toThrow(
      /give --power 2 or --power 3, by its number/,
    );
  });
});
