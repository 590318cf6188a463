import { expect, it } from 'vitest';
import { digits } from '../../src/base/digits.ts';

it('keeps the digits asked for and writes no power of ten', () => {
  expect([999.4, 999.6, 12_345, -86_432.1, 0.01234, 1].map((x) => digits(x))).toEqual([
    '999',
    '1000',
    '12300',
    '-86400',
    '0.0123',
    '1.00',
  ]);
  expect(digits(86_432.1, 4)).toBe('86430');
});
