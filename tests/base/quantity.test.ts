import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  formatPercent,
  formatQuantity,
  readQuantity,
  suffixOf,
} from '../../src/base/quantity.ts';

const read = (text: string, dimension: Dimension): number => {
  const reading = readQuantity(text, dimension);
  if (!reading.ok) throw new Error(`${text}: ${reading.found}`);
  return reading.value;
};

const found = (text: string, dimension: Dimension): string => {
  const reading = readQuantity(text, dimension);
  return reading.ok ? `read as ${reading.value}` : `${reading.found}; expected ${reading.expected}`;
};

describe('readQuantity', () => {
  it('gives the double nearest to the decimal value, whatever the prefix', () => {
    const cases: [string, Dimension, number][] = [
      ['36 kW', 'power', 36000],
      ['0.694 mΩ', 'resistance', 0.000694],
      ['10 uOhm', 'resistance', 0.00001],
      ['0.25 µs', 'time', 2.5e-7],
      ['17.5 nH', 'inductance', 1.75e-8],
      ['22 mF', 'capacitance', 0.022],
      ['70 %', 'ratio', 0.7],
      ['-0.15 %', 'ratio', -0.0015],
      ['5 kWh', 'energy', 18e6],
      ['3.75 kWh', 'energy', 13.5e6],
      ['10 MVA', 'apparent_power', 1e7],
      ['1 A/µs', 'current_rate', 1e6],
      ['20 kW/ms', 'power_rate', 2e7],
      ['276 A/V', 'voltage_gain', 276],
      ['3.2e5 A/(V s)', 'integral_gain', 3.2e5],
      ['2.2e-7 1/W', 'inverse_power', 2.2e-7],
      ['2 min', 'time', 120],
      ['25 °C', 'temperature', 25],
      ['5', 'count', 5],
      ['0.97', 'ratio', 0.97],
    ];
    for (const [text, dimension, value] of cases) expect(read(text, dimension), text).toBe(value);
  });

  it('takes both micro signs, both ohm signs, u and ohm for the same', () => {
    const spellings = ['10 µΩ', '10 \u03bcΩ', '10 u\u2126', '10 uohm', '10 \u03bcOhm', '10µΩ', '1e1 µΩ'];
    expect(new Set(spellings.map((text) => read(text, 'resistance')))).toEqual(new Set([1e-5]));
  });

  it('takes the integral gain in each of its spellings', () => {
    for (const text of ['2 A/(V s)', '2 A/(V·s)', '2 A/V/s', '2 A/(s V)', '2 mA/(mV s)']) {
      expect(read(text, 'integral_gain'), text).toBe(2);
    }
  });

  it('tells what was found where the dimension is another', () => {
    expect(found('22 mH', 'capacitance')).toBe(
      '22 mH, which is an inductance; expected a capacitance, for example 22 mF',
    );
    expect(found('20 A', 'count')).toBe('20 A, which is a current; expected a count, for example 5');
    expect(found('5 ms', 'ratio')).toBe('5 ms, which is a time; expected a ratio, for example 0.7 or 70 %');
  });

  it('refuses a bare number where a unit is needed, 0 included', () => {
    expect(found('22', 'capacitance')).toBe(
      '22, a number without a unit; expected a capacitance, for example 22 mF',
    );
    expect(found('0', 'time')).toBe('0, a number without a unit; expected a time, for example 0.5 ms');
  });

  it('refuses what is not a finite number', () => {
    expect(found('1e999 V', 'voltage')).toBe(
      '1e999 V, which is too large for a number; expected a voltage, for example 50.25 V',
    );
    for (const text of ['.inf V', '.nan V', 'Infinity V', 'NaN', '--1 V', 'twelve V', '']) {
      expect(readQuantity(text, 'voltage').ok, text).toBe(false);
    }
  });

  it('refuses units that do not exist, inherited names included', () => {
    for (const unit of ['mFF', 'constructor', 'kk', 'V/', '/s', 'm', 'toString', '%%', 'mmin']) {
      expect(readQuantity(`1 ${unit}`, 'capacitance').ok, unit).toBe(false);
    }
  });

  it('refuses a broken count', () => {
    expect(found('2.5', 'count')).toBe('2.5, not a whole number; expected a count, for example 5');
    expect(found('50 %', 'count')).toBe('50 %, a share; expected a count, for example 5');
  });
});

describe('formatQuantity', () => {
  it('writes an engineering prefix', () => {
    expect(formatQuantity(0.000694, 'resistance')).toBe('694 µΩ');
    expect(formatQuantity(36000, 'power')).toBe('36 kW');
    expect(formatQuantity(2.5e-7, 'time')).toBe('250 ns');
    expect(formatQuantity(0, 'voltage')).toBe('0 V');
    expect(formatQuantity(-0.022, 'capacitance')).toBe('-22 mF');
    expect(formatQuantity(1234.5678, 'power', 3)).toBe('1.23 kW');
    expect(formatQuantity(Number.NaN, 'voltage')).toBe('NaN V');
    expect(formatPercent(0.125)).toBe('12.5 %');
  });

  it('writes what reads back to the same bits, in every dimension', () => {
    const dimensions = (Object.keys(suffixOf) as Dimension[]).filter((d) => d !== 'count');
    const value = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(fc.constantFrom(...dimensions), value, (dimension, x) => {
        const back = read(formatQuantity(x, dimension), dimension);
        // -0 is written as 0.
        expect(back === x).toBe(true);
      }),
      { seed: 20251, numRuns: 2000 },
    );
  });

  it('writes decimals of everyday size without an exponent', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 999_999 }),
        fc.integer({ min: -12, max: 9 }),
        (digits, exponent) => {
          const x = Number(`${digits}e${exponent}`);
          const text = formatQuantity(x, 'current');
          expect(text).toMatch(/^\d+(\.\d+)? [pnµmkMGT]?A$/);
          expect(read(text, 'current')).toBe(x);
        },
      ),
      { seed: 20252, numRuns: 1000 },
    );
  });
});
