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
