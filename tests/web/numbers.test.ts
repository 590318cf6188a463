import { describe, expect, it } from 'vitest';
import { duration, moment, withUnit } from '../../web/numbers.ts';

describe('withUnit()', () => {
  it.each([
    [49.695, 'V', '49.70 V'],
    [1470.3, 'A', '1,470 A'],
    [0.46, 'A', '0.5 A'],
    [211_000, 'W', '211.0 kW'],
    [-778.6, 'W', '−778.6 W'],
    [5.985e6, 'J', '5.985 MJ'],
    [999.96e3, 'W', '1 MW'],
    [10e6, 'VA', '10 MVA'],
    [40.46, 'degC', '40.46 °C'],
    [80e3, 'W/s', '80.0 kW/s'],
    [0.0436, 'ratio', '4.4 %'],
    [3, 'count', '3'],
    [1.04, 's', '1.04 s'],
  ] as const)('writes %d %s as %s', (value, unit, text) => {
    expect(withUnit(value, unit)).toBe(text);
  });

  it('writes a dash where there is no number', () => {
    expect([withUnit(null, 'V'), withUnit(Number.NaN, 'A')]).toEqual(['–', '–']);
  });
});

describe('duration() and moment()', () => {
  it('choose the unit and the digits that the size calls for', () => {
    expect([duration(0.0001), duration(0.02), duration(28.8)]).toEqual(['100 µs', '20 ms', '28.8 s']);
    expect([moment(9.07, 30), moment(1.60012, 0.01), moment(1.600123, 1e-4)]).toEqual([
      '9.07 s',
      '1.60012 s',
      '1.600123 s',
    ]);
  });
});
