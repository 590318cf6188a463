/** Several channels or devices in one file: wide, long, interleaved, among rows of other things. */
import { describe, expect, test } from 'vitest';
import { file, read, readOnceTold, readToTruth, rows, watts } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
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
  ]);
});

describe('refused with the option that reads them:', () => {
  readOnceTold([
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
  ]);
});

describe('rows told apart by --where', () => {
  test('filters without a column or a value', () => {
    const text = file(
      't_s,power_W',
      rows((t, p) => [t, p]),
    );
    expect(() => read(text, { where: ['kind'] })).toThrow(/write it like --where metric=power_W/);
    expect(() => read(text, { where: ['kind=y'] })).toThrow(/kind/);
  });

  test('a filter that leaves nothing', () => {
    const text = file(
      't_s,kind,power_W',
      rows((t, p) => [t, 'x', p]),
    );
    expect(() => read(text, { where: ['kind=y'] })).toThrow(/21 rows that --where leaves out/);
  });
});
