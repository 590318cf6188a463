/** What names, labels and units say to be no power of a load is refused with the way out, and never summed as watts. */
import { describe, expect, test } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const [a, b, c] = [1, 2, 3].map((seed) => busy(300, seed)) as [Float64Array, Float64Array, Float64Array];
type Cells = readonly (string | number)[];
const wide = (head: string, of: (k: number) => Cells): string =>
  `${head}\n${Array.from(a, (_, k) => [k / 50, ...of(k)].join(',')).join('\n')}\n`;
/** Several rows at each stamp. */
const long = (head: string, of: (k: number) => readonly Cells[]): string =>
  `${head}\n${Array.from(a, (_, k) =>
    of(k)
      .map((row) => [k / 50, ...row].join(','))
      .join('\n'),
  ).join('\n')}\n`;
const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...reading });

function refusal(text: string, reading: Partial<RecordedReading> = {}): string {
  try {
    read(text, reading);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    const { found, mend } = error.problems[0]!;
    return `${found} | ${mend}`;
  }
  return 'read';
}

const metrics = (names: readonly [string, string]) =>
  long('time_s,metric,value', (k) => [
    [names[0], a[k]!],
    [names[1], 60 + (k % 9)],
  ]);
const units = (other: string) =>
  long('time_s,unit,value', (k) => [
    ['W', a[k]!],
    [other, 60 + (k % 9)],
  ]);
const value = { power: ['value'], unit: 'W' };

describe('refused:', () => {
  test.each<readonly [string, string, Partial<RecordedReading>, RegExp]>([
    [
      'a temperature that --where takes',
      metrics(['power', 'temperature']),
      { ...value, where: ['metric=temperature'] },
      /300 rows whose metric is temperature, a temperature by its name, read as a power/,
    ],
    [
      'a temperature as a channel',
      metrics(['power', 'gpu temp']),
      { ...value, channel: 'metric' },
      /gpu temp.* \| give --where "metric=power"/,
    ],
    [
      'metrics as one device',
      metrics(['power', 'fan_speed']),
      { ...value, channel: 'none', sort: true },
      /metric is fan_speed, a speed/,
    ],
    [
      'degrees as a channel',
      units('C'),
      { ...value, channel: 'unit' },
      /whose unit is C, a temperature by its unit/,
    ],
    ['volts beside watts', units('V'), { ...value, channel: 'unit' }, /whose unit is V, in V/],
    [
      'kilowatts beside watts',
      units('kW'),
      { ...value, channel: 'unit' },
      /whose unit is kW.*read in another unit/,
    ],
    [
      'a unit that says kilowatts',
      wide('time_s,power_W,unit', (k) => [a[k]!, 'kW']),
      {},
      /300 rows whose unit is kW, in kW by its name, read in another unit/,
    ],
    [
      'a peak of each interval by its label',
      long('time_s,stat,power_W', (k) => [
        ['avg', a[k]!],
        ['max', 1.2 * a[k]!],
      ]),
      { where: ['stat=max'] },
      /max: by its name an extreme/,
    ],
    [
      'an apparent power',
      wide('time_s,apparent_power_W', (k) => [a[k]!]),
      {},
      /apparent_power_W, an apparent power/,
    ],
    ['a reactive power', wide('time_s,reactive_W', (k) => [a[k]!]), {}, /reactive_W, a reactive power/],
    ['a highest alone', wide('time_s,max_W', (k) => [a[k]!]), {}, /max_W: by its name an extreme/],
    ['highest powers alone', wide('time_s,gpu0_max_W,gpu1_max_W', (k) => [a[k]!, b[k]!]), {}, /an extreme/],
    ['a limit alone', wide('time_s,power_limit_W', () => [700]), {}, /by its name a limit/],
    [
      'a temperature by its name',
      wide('time_s,gpu_temp', (k) => [a[k]!]),
      { power: ['gpu_temp'], unit: 'W' },
      /gpu_temp, a temperature/,
    ],
    [
      'amperes and volts beside a power factor',
      wide('time_s,current_A,voltage_V,pf', (k) => [a[k]! / 50, 230, 0.8]),
      {},
      /current_A times a voltage, beside pf: an apparent power/,
    ],
    [
      'effective values',
      wide('time_s,I_rms_A,U_rms_V', (k) => [a[k]! / 50, 230]),
      {},
      /of I_rms_A, by its name of the AC side/,
    ],
    [
      'currents and voltages of three phases',
      wide('time_s,I_L1_A,I_L2_A,I_L3_A,U_V', (k) => [a[k]! / 50, b[k]! / 50, c[k]! / 50, 230]),
      {},
      /of the phases I_L1_A, I_L2_A, I_L3_A/,
    ],
  ])('%s', (_, text, reading, words) => {
    expect(refusal(text, reading)).toMatch(words);
    expect(refusal(text, reading)).toMatch(/--overrule/);
    expect(refusal(text, { ...reading, overrule: true })).toBe('read');
  });
});

describe('read:', () => {
  const twoUnits = (names: Cells) =>
    long('time_s,unit,power_W', (k) => [
      [names[0]!, a[k]!],
      [names[1]!, b[k]!],
    ]);
  test.each<readonly [string, string, Partial<RecordedReading>]>([
    ['the power among metrics', metrics(['power', 'temperature']), { ...value, where: ['metric=power'] }],
    ['units that say watts', wide('time_s,power_W,unit', (k) => [a[k]!, 'W']), {}],
    ['devices called A and B', twoUnits(['A', 'B']), {}],
    ['devices called after what they are', twoUnits(['fan', 'memory']), { channel: 'unit' }],
    [
      'a load that is slowed by its temperature at times',
      wide('time_s,power_W,slowed_by', (k) => [a[k]!, k < 100 ? 'power' : 'thermal']),
      {},
    ],
    ['a power beside its factor', wide('time_s,power_W,power_factor', (k) => [a[k]!, 0.9]), {}],
    ['a power beside its state', wide('time_s,power_W,power_state', (k) => [a[k]!, 0]), {}],
    ['a mean alone', wide('time_s,avg_W', (k) => [a[k]!]), {}],
  ])('%s', (_, text, reading) => {
    expect(refusal(text, reading)).toBe('read');
    expect(read(text, reading).statement.warnings).toEqual([]);
  });

  test('three balanced phases are summed', () => {
    const phases = wide('time_s,P_L1_W,P_L2_W,P_L3_W', (k) => [
      a[k]!,
      a[k]! + (k % 3) / 10,
      a[k]! - (k % 3) / 10,
    ]);
    const { statement } = read(phases);
    expect(statement.channels).toHaveLength(3);
    expect(statement.total.max_W).toBeCloseTo(3 * Math.max(...a), 0);
    const long_ = long('time_s,phase,power_W', (k) =>
      [1, 2, 3].map((n) => [`L${n}`, a[k]! + (((n * k) % 3) - 1) / 10]),
    );
    expect(refusal(long_)).toBe('read');
  });
});

describe('a power beside the current and the voltage of the same rows', () => {
  const beside = (of: (k: number) => Cells, more = '') =>
    read(wide(`time_s,power_W,current_mA,voltage_V${more}`, of)).statement.warnings.join();
  const mA = (k: number): number => 20 * a[k]!;

  test.each<readonly [string, (k: number) => Cells, string, RegExp]>([
    [
      'a thousandth of it',
      (k) => [a[k]! / 1000, mA(k), 50],
      '',
      /power_W is 0\.001 times current_mA × voltage_V/,
    ],
    ['twice it', (k) => [k === 9 ? '' : 2 * a[k]!, mA(k), 50], '', /power_W is 2 times/],
    [
      'another curve of the same mean',
      (k) => [a[k]!, 20 * a[299 - ((k + 40) % 300)]!, 50],
      '',
      /does not follow/,
    ],
    ['with a power factor that is not in it', (k) => [a[k]!, mA(k), 50, 0.8], ',pf', /1\.25 times .* × pf/],
  ])('is told where it is %s', (_, of, more, words) => {
    expect(beside(of, more)).toMatch(words);
  });

  test.each<readonly [string, (k: number) => Cells, string]>([
    ['it agrees to the error of meters', (k) => [1.02 * a[k]! + (k % 9), mA(k), 50], ''],
    ['with its power factor', (k) => [0.8 * a[k]!, mA(k), 50, 0.8], ',pf'],
  ])('is left alone where %s', (_, of, more) => {
    expect(beside(of, more)).toBe('');
  });

  test('may lack its factor on the AC side', () => {
    const text = wide('time_s,power_W,current_mA,voltage_V', (k) => [0.7 * a[k]!, mA(k), 50]);
    expect(read(text, { side: 'ac' }).statement.warnings).toEqual([]);
    expect(read(text).statement.warnings).toHaveLength(1);
  });
});

describe('the bounds of one power', () => {
  const bounds = (lower: string, upper: string, more = ''): string =>
    wide(`time_s,${lower},${upper}${more}`, (k) => [a[k]! - 20, a[k]! + 20, ...(more === '' ? [] : [a[k]!])]);

  test.each([
    ['load.low_W', 'load.high_W'],
    ['power_lower_W', 'power_upper_W'],
    ['power_lo_W', 'power_hi_W'],
    ['power_min_W', 'power_max_W'],
    ['power_p5_W', 'power_p95_W'],
    ['power_q05_W', 'power_q95_W'],
  ])('%s and %s are neither summed nor taken for the load', (lower, upper) => {
    const text = bounds(lower, upper);
    for (const power of [[], [lower, upper], [upper]])
      expect(refusal(text, { power })).toMatch(/the bounds of one power.* \| .*--overrule/);
    expect(refusal(text, { power: [upper], overrule: true })).toBe('read');
  });

  test('beside it are left out, and that is said', () => {
    const { statement } = read(bounds('power_low_W', 'power_high_W', ',power_W'));
    expect(statement.channels.map(({ name }) => name)).toEqual(['power_W']);
    expect(statement.inferred.join(' ')).toMatch(/Not taken: power_low_W, power_high_W/);
  });

  test('as rows are not two devices', () => {
    const text = long('time_s,channel,power_W', (k) => [
      ['load.low', a[k]! - 20],
      ['load.high', a[k]! + 20],
    ]);
    expect(refusal(text)).toMatch(/the bounds of one power/);
  });

  test('are not found in the numbers of devices', () => {
    const devices = [1, 2, 3, 5, 50, 95, 99].map((k) => `p${k}_W`).join(',');
    expect(
      refusal(wide(`time_s,${devices}`, (k) => [1, 2, 3, 4, 5, 6, 7].map((n) => n * b[k]!))),
    ).not.toMatch(/bounds/);
  });
});
