import { expect, test } from 'vitest';
import { endingWith, rangeText, withHalfWidth } from '../../../src/analysis/words/interval-text.ts';

test.each([
  [0.01004, 53.79e-6, 'time', '10.040 ms ± 54 µs'],
  [-1.98997, 1.169e-3, 'time', '-1.9900 s ± 1.2 ms'],
  [0.158, 0.01477, 'time', '158 ms ± 15 ms'],
  [702.1e-6, 9.2e-6, 'resistance', '702.1 µΩ ± 9.2 µΩ'],
  [81.83, 6.04, 'count', '81.8 ± 6'],
  [0.0999, 0.0996, 'voltage', '100 mV ± 100 mV'],
  // A value within the last digit of its width is nothing but that.
  [1e-9, 1.2e-3, 'time', '0 s ± 1.2 ms'],
] as const)(
  'withHalfWidth(%d, %d) ends the value with the second digit of its width',
  (value, half, of, text) => {
    expect(withHalfWidth(value, half, of)).toBe(text);
  },
);

test('rangeText() gives both ends the digits of half their distance', () => {
  expect(rangeText([0.0743, 0.07536], 'capacitance')).toBe('74.30 mF to 75.36 mF');
  expect(rangeText([0.998e-3, 1.0021e-3], 'resistance')).toBe('998.0 µΩ to 1.0021 mΩ');
});

test('endingWith() has four digits where no width is known', () => {
  expect(endingWith(0.0123456, 0, 'time')).toBe('12.35 ms');
});
