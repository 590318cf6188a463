import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { valuesOf } from '../../src/studies/written/values.ts';

describe('valuesOf()', () => {
  it('lists what is written, from the least to the most', () => {
    expect(valuesOf('trays.count', '6 to 9', 'count')).toEqual(['6', '7', '8', '9']);
    expect(valuesOf('trays.count', '6..9', 'count')).toEqual(['6', '7', '8', '9']);
    expect(valuesOf('load.duty', '0.8 to 1 by 0.05', 'ratio')).toEqual(['0.8', '0.85', '0.9', '0.95', '1']);
    expect(valuesOf('banks.capacitance', '20 mF to 80 mF in 4', 'capacitance')).toEqual([
      '20 mF',
      '40 mF',
      '60 mF',
      '80 mF',
    ]);
    expect(valuesOf('banks.move', 'K1 to A first | K1 to A last', null)).toEqual([
      'K1 to A first',
      'K1 to A last',
    ]);
  });

  it('refuses what it cannot list, with how to write it', () => {
    const say = (text: string): string => {
      try {
        return valuesOf('trays.esr', text, 'resistance').join();
      } catch (error) {
        if (error instanceof BadInput) return error.message;
        throw error;
      }
    };
    expect(say('1 mΩ to 5 mΩ')).toMatchInlineSnapshot(`
      "trays.esr
        found     a range without steps in 1 mΩ to 5 mΩ
        expected  1 mΩ to 5 mΩ by …, or 1 mΩ to 5 mΩ in 9
        mend      write 6 to 14, 0.8 to 1.2 by 0.05, 100 F to 200 F in 6, or a | b | c
      1 problem. Nothing was run."
    `);
    expect(say('1 mΩ to 5 V in 3')).toMatchInlineSnapshot(`
      "trays.esr
        found     5 V, which is a voltage
        expected  a resistance, for example 0.694 mΩ or 0.694 mohm
        mend      write it like 0.694 mΩ or 0.694 mohm
      1 problem. Nothing was run."
    `);
    expect(say('1 mΩ to 5 mΩ by 1 nΩ')).toMatchInlineSnapshot(`
      "trays.esr
        found     4000001 values in 1 mΩ to 5 mΩ by 1 nΩ
        expected  1 to 1000 values
        mend      write 6 to 14, 0.8 to 1.2 by 0.05, 100 F to 200 F in 6, or a | b | c
      1 problem. Nothing was run."
    `);
  });

  it('refuses numbers that descend, where the first that passes would be the most', () => {
    const say = (text: string): string => {
      try {
        return valuesOf('trays.count', text, 'count', 'search').join();
      } catch (error) {
        if (error instanceof BadInput) return error.message;
        throw error;
      }
    };
    expect(say('9 to 6')).toMatchInlineSnapshot(`
      "trays.count
        found     values that do not ascend: 9 to 6
        expected  values from the least to the most: the first that passes is taken for the least
        mend      write 6 to 9
      1 problem. Nothing was run."
    `);
    expect(say('12 | 8 | 10 | 8')).toContain('mend      write 8 | 10 | 12\n');
    expect(say('9 to 6 by 2')).toContain('mend      write 6 to 9 by 2\n');
    expect(say('7 to 7')).toBe('7');
    // Places have no less and more.
    expect(valuesOf('banks.move', 'K1 to B last | K1 to A first', null)).toHaveLength(2);
  });
});
