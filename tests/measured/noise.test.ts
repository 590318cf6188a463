import { expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { noiseOf } from '../../src/measured/noise.ts';

test('noiseOf() finds the deviation of noise on a curve with edges', () => {
  const random = new Random(9);
  const values = Float64Array.from(
    { length: 4000 },
    (_, i) => (i % 500 < 250 ? 0 : 100) + 2 * random.gaussian(),
  );
  expect(noiseOf(values)).toBeCloseTo(2, 0);
});

test('noiseOf() hears none in readings that stand still, and takes no quiet channel for one of them', () => {
  const random = new Random(9);
  const noisy = Float64Array.from({ length: 1000 }, () => 50 + 2 * random.gaussian());
  const half = noiseOf(noisy.map((value, i) => (i < 700 ? value : 53)));
  expect(Math.abs(half / noiseOf(noisy) - 1)).toBeLessThan(0.1);
  // At rest on a coarse grid for most of the time, which is what it is.
  const resting = noisy.map((_, i) => Math.round(Math.sin(i / 100) * 4));
  expect(noiseOf(resting)).toBeCloseTo(1 / Math.sqrt(12), 6);
});
