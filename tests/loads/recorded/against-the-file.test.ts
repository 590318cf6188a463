/**
 * What is stated against what the file says itself is refused with both named, and taken with a warning where
 * --overrule says that it holds all the same.
 */
import { describe, expect, test } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const [a, b, c] = [1, 2, 3].map((seed) => busy(300, seed)) as [Float64Array, Float64Array, Float64Array];
const file = (head: string, of: (k: number) => readonly (string | number)[]): string =>
  `${head}\n${Array.from(a, (_, k) => of(k).join(';')).join('\n')}\n`;
const read = (text: string, reading: Partial<RecordedReading>) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...reading });

/** The first problem, as its three parts. */
function refusal(text: string, reading: Partial<RecordedReading>): string {
  try {
    read(text, reading);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    const { found, expected, mend } = error.problems[0]!;
    return `${found} | ${expected} | ${mend}`;
  }
  return 'read';
}

const two = file('time_s;gpu0_W;gpu1_W', (k) => [k / 50, a[k]!, b[k]!]);
const beside = (name: string, of: (k: number) => number): string =>
  file(`time_s;gpu0_W;gpu1_W;${name}`, (k) => [k / 50, a[k]!, b[k]!, of(k)]);
const amperes = file('time_s;current_A;voltage_V', (k) => [k / 50, (a[k]! / 50).toFixed(2), 50]);
const long = file('t_ms;accelerator;power_mW', (k) => [20 * k, k % 2, 1000 * a[k]!]);
const turns = file('t_ms;phase;power_W', (k) => [20 * k, k < 200 ? 'train' : 'test', a[k]!]);
/** Every other number has three digits behind its mark, which may part thousands. */
const mixed = (mark: string): string =>
  file('time_s;gpu0_W;gpu1_W', (k) => [
    k / 50,
    (a[k]! / 100).toFixed(3),
    (b[k]! / 100).toFixed(2).replace('.', k % 2 === 0 ? mark : '.'),
  ]);
const all = (third: string): Partial<RecordedReading> => ({ power: ['gpu0_W', 'gpu1_W', third] });

const cases: readonly (readonly [string, string, Partial<RecordedReading>, RegExp])[] = [
  [
    'a sum by name',
    beside('sum_W', (k) => a[k]! + b[k]!),
    all('sum_W'),
    /sum_W beside gpu0_W, gpu1_W: by its name a sum.*--power gpu0_W --power gpu1_W/,
  ],
  [
    'a sum by its values',
    beside('board_W', (k) => a[k]! + b[k]!),
    all('board_W'),
    /board_W is the sum gpu0_W \+ gpu1_W/,
  ],
  [
    'a meter above both',
    beside('node_W', (k) => 1.06 * (a[k]! + b[k]!) + 120 + (c[k]! % 7)),
    all('node_W'),
    /node_W follows the sum gpu0_W \+ gpu1_W/,
  ],
  ['a mean', beside('mean_W', (k) => (a[k]! + b[k]!) / 2), all('mean_W'), /by its name a mean/],
  ['a limit', beside('power_limit_W', () => 1000), all('power_limit_W'), /by its name a limit/],
  ['a highest', beside('gpu0_max_W', (k) => 1.05 * a[k]!), all('gpu0_max_W'), /by its name an extreme/],
  [
    'three numbered columns, of which one sums the others',
    beside('gpu2_W', (k) => a[k]! + b[k]!),
    {},
    /gpu2_W is the sum/,
  ],
  [
    'an energy as a power',
    file('time_s;gpu0_energy_J', (k) => [k / 50, k]),
    { power: ['gpu0_energy_J'], unit: 'W' },
    /gpu0_energy_J, in J by its name, read as a power/,
  ],
  ['a current as a power', amperes, { power: ['current_A'], unit: 'W' }, /current_A, in A by its name/],
  [
    'milliwatts of a column in watts',
    two,
    { unit: 'mW' },
    /gpu0_W, in W by its name, read in mW as stated \|.*leave out --unit, or give --overrule/,
  ],
  ['milliamperes of a column in amperes', amperes, { unit: 'mA' }, /current_A, in A by its name, read in mA/],
  [
    'a constant voltage beside a recorded one',
    amperes,
    { voltage: '400 V' },
    /a constant voltage of 400 V, as stated, beside voltage_V/,
  ],
  [
    'watts of cells in milliwatts',
    file('time_s;power', (k) => [k / 50, `${a[k]} mW`]),
    { unit: 'W' },
    /cells such as \S+ mW in power, read in W/,
  ],
  [
    'a decimal comma where cells have points',
    mixed('.'),
    { decimal: 'comma' },
    /a decimal comma, as stated, and numbers in gpu0_W, gpu1_W such as \d+\.\d\d, whose decimal mark is a point/,
  ],
  [
    'a decimal point where cells have commas',
    mixed(','),
    { decimal: 'point' },
    /such as \d+,\d+, whose decimal mark is a comma/,
  ],
  [
    'a decimal comma where stamps have points',
    file('time_s;power_W', (k) => [(k / 50).toFixed(2), (a[k]! / 100).toFixed(3)]),
    { decimal: 'comma' },
    /and stamps such as 0\.00/,
  ],
  [
    'milliseconds of a column in seconds',
    two,
    { time: 'time_s:ms' },
    /time_s, in s by its name, read in ms as stated/,
  ],
  [
    'microseconds of dates in milliseconds',
    file('time;power_W', (k) => [1_900_000_000_000 + 20 * k, a[k]!]),
    { time: 'time:us' },
    /1900000000000, a date in ms by its size, read in us/,
  ],
  [
    'two devices as one',
    long,
    { channel: 'none' },
    /column accelerator with 2 values \(0, 1\) that change 299 times in 300 rows/,
  ],
];

describe('refused, and taken with a warning where it is overruled:', () => {
  test.each(cases)('%s', (_, text, reading, words) => {
    expect(refusal(text, reading)).toMatch(words);
    expect(refusal(text, reading)).toMatch(/or give --overrule where what is stated holds all the same$/);
    const { warnings } = read(text, { ...reading, overrule: true }).statement;
    expect(warnings.filter((line) => line.startsWith('Overruled (--overrule): ')).join()).not.toBe('');
  });
});

describe('taken as stated:', () => {
  test.each<readonly [string, string, Partial<RecordedReading>]>([
    ['units that the names say', two, { time: 'time_s:s', unit: 'W' }],
    ['a decimal comma where there are some', two.replaceAll('.', ','), { decimal: 'comma' }],
    ['phases of one device', turns, { channel: 'none' }],
    [
      'a unit of dates that the name says wrong',
      file('time_s;power_W', (k) => [1_900_000_000_000 + 20 * k, a[k]!]),
      { time: 'time_s:ms' },
    ],
    [
      'phases that a letter names',
      file('time_s;P_A;P_B;P_C', (k) => [k / 50, a[k]!, b[k]!, c[k]!]),
      { power: ['P_A', 'P_B', 'P_C'], unit: 'W' },
    ],
    ['averages of several devices', file('time_s;gpu0_avg_W;gpu1_avg_W', (k) => [k / 50, a[k]!, b[k]!]), {}],
  ])('%s', (_, text, reading) => {
    expect(read(text, reading).statement.warnings).toEqual([]);
  });

  test('with a word where there is nothing to overrule', () => {
    expect(read(two, { overrule: true }).statement.inferred.join()).toMatch(
      /nothing to overrule \(--overrule\)/,
    );
  });
});

describe('stamps without a unit', () => {
  const every = (step: number): string => file('time;power_W', (k) => [Number((k * step).toFixed(6)), a[k]!]);

  test.each([
    [
      0.02 / 60,
      /come every 0\.0003333: no round number of seconds, but 0\.02 s if they count minutes.*--time time:min or --time time:s/,
    ],
    [1 / 60, /1 s if they count minutes/],
    [1 / 3600, /if they count hours/],
  ])('that step by %d are asked for', (step, words) => {
    expect(refusal(every(step), {})).toMatch(words);
  });

  test('that step by a round number of seconds are taken for seconds', () => {
    for (const step of [0.02, 0.001, 0.25, 0.0125]) expect(refusal(every(step), {})).toBe('read');
  });
});

test('dates with a zone and dates without one are no one time', () => {
  const zones = file('time;power_W', (k) => [
    `2030-03-04T10:00:${String(Math.floor(k / 10)).padStart(2, '0')}.${k % 10}${k < 150 ? '+01:00' : ''}`,
    a[k]!,
  ]);
  expect(refusal(zones, {})).toMatch(/dates with a zone and dates without one in column time/);
});

test('a channel that counts what is drawn as negative is named', () => {
  const turned = file('time_s;gpu0_W;gpu1_W', (k) => [k / 50, a[k]!, k === 7 ? 5 : -b[k]!]);
  expect(refusal(turned, {})).toMatch(
    /negative powers in 299 of 300 samples of gpu1_W, down to -[^|]* \|.*turn the sign of gpu1_W in the export/,
  );
});
