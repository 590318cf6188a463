/** What stands between cells and at the end of lines. */
import { describe } from 'vitest';
import { comma, file, readToTruth, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
    [
      'wide, seconds and watts',
      file(
        't_s,power_W',
        rows((t, p) => [t, p]),
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
      'quoted cells with a comma in the name',
      file(
        '"time, s","power, W"',
        rows((t, p) => [`"${t}"`, `"${p}"`]),
      ),
      { time: 'time, s:s', power: ['power, W'], unit: 'W' },
    ],
    [
      'a delimiter too many at each end, and unused columns',
      file(
        't_s,temperature_C,power_W,note,',
        rows((t, p) => [t, 41, p, 'ok', '']),
      ),
    ],
  ]);
});
