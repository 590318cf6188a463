import { expect, test } from 'vitest';
import { bandwidthOfRate, boxcarGain } from '../../../src/loads/recorded/bandwidth.ts';

// Closed form |sin x / x| at x = π/2, π/4, π: 2/π, 2√2/π, 0.
test('a mean over 1 s shows a swing of 0.5 Hz with 2/π of its size, of 0.25 Hz with 2√2/π, of 1 Hz not at all', () => {
  expect(boxcarGain(0.5, 1)).toBeCloseTo(2 / Math.PI, 12);
  expect(boxcarGain(0.25, 1)).toBeCloseTo((2 * Math.SQRT2) / Math.PI, 12);
  expect(boxcarGain(1, 1)).toBeLessThan(1e-15);
  expect(boxcarGain(0, 1)).toBe(1);
});

test('the bandwidth rule is the −3 dB point of that mean to two digits', () => {
  expect(20 * Math.log10(boxcarGain(bandwidthOfRate, 1))).toBeCloseTo(-3.01, 1);
  expect(boxcarGain(0.435, 1)).toBeGreaterThan(Math.SQRT1_2);
  expect(boxcarGain(0.445, 1)).toBeLessThan(Math.SQRT1_2);
});
