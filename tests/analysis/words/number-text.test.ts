import { expect, test } from 'vitest';
import { numberText } from '../../../src/analysis/words/number-text.ts';

test.each<[number, string, string]>([
  [49.3126, 'V', '49.31 V'],
  [0.00321, 'V', '3.21 mV'],
  [1240.4, 'A', '1.24 kA'],
  [79_960, 'W/s', '79.96 kW/s'],
  [198_432, 'W', '198.4 kW'],
  [0.0432, 'ratio', '4.32 %'],
  [0, 'count', '0'],
  [-12_000, 'W', '-12 kW'],
  [0.0001, 's', '100 µs'],
  [18_000, 's', '5 h'],
  [157_788_000, 's', '5 years'],
  [Number.NaN, 'V', 'no number'],
])('%d %s reads %s', (value, unit, text) => {
  expect(numberText(value, unit)).toBe(text);
});
