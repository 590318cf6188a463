/** Power as current times voltage. */
import { describe, expect, test } from 'vitest';
import { file, read, readOnceTold, readToTruth, rows } from './known-load.ts';

describe('read to their known truth:', () => {
  readToTruth([
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
  ]);
});

describe('refused with the option that reads them:', () => {
  readOnceTold([
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
  ]);
});

describe('refused with the way out:', () => {
  test('AC volts times amperes, whose power factor nobody knows', () => {
    expect(() => read(file('t_s,current_A,voltage_V', '0,1,230', '1,1,230'), { side: 'ac' })).toThrow(
      /give --power COLUMN/,
    );
  });
});
