import { expect, test } from 'vitest';
import { anotherNumber } from '../../../src/cli/options/another-number.ts';

test.each([
  ['-999', -999],
  ['-1,5', -1.5],
  ['-1,000,000', -1e6],
  ['1e3', 1000],
])('anotherNumber() takes %s for %d', (text, value) => {
  expect(anotherNumber(text, [7])).toEqual([7, value]);
});

test('anotherNumber() asks which of two values a comma stands for', () => {
  expect(() => anotherNumber('-1,000')).toThrow(/write its value without one, -1 or -1000\./);
});

test.each(['', 'none', '5 W', '1e999'])('anotherNumber() refuses "%s"', (text) => {
  expect(() => anotherNumber(text)).toThrow(/must be a number/);
});
