/** Stamps that are numbers: seconds, epochs, counters, days of a spreadsheet. */
import { describe } from 'vitest';
import { file, lines, readOnceTold, readToTruth, refused, rows, start_s } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
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
      'stamps that jitter on the straight lines',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]),
      ).replace('0.5,1040\n', '0.4,1032\n0.5,1040\n'),
    ],
  ]);
});

describe('refused with the option that reads them:', () => {
  readOnceTold([
    [
      'whole numbers as stamps',
      file(
        'time,power_W',
        rows((t, p) => [2 * t, p / 2]),
      ),
      /give --time time:s or --time time:ms/,
      { time: 'time:s' },
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
  ]);
});

describe('refused with the way out:', () => {
  refused([
    [
      'a stamp years after the others',
      `t_s,power_W\n${lines((t, p) => `${t},${p}`)}1900000000,1000\n`,
      /take out the rows whose stamp is wrong/,
    ],
    [
      'microseconds of the day, as a column of times without its type has them, under the name of seconds',
      file(
        'time_s,power_W',
        rows((t, p) => [43_200e6 + 1e6 * t, p]),
      ),
      /time_s in s by its name, whose stamps come every \d+ s/,
    ],
  ]);
});
