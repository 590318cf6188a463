import { expect, it } from 'vitest';
import { complexOf, transform } from '../../../src/analysis/signal/fourier.ts';
import { RealTransform } from '../../../src/analysis/signal/real-transform.ts';

it.each([2, 4, 6, 7, 64, 90, 250, 999])(
  'RealTransform of %i samples has the bins of their transform',
  (n) => {
    const plan = new RealTransform(n);
    for (const seed of [7919, 104729]) {
      const x = Float64Array.from({ length: n }, (_, j) => ((j * seed) % 1013) / 1013);
      const expected = transform(complexOf(x));
      const found = plan.of(x);
      for (let k = 0; 2 * k <= n; k++) {
        expect(found[2 * k]).toBeCloseTo(expected[2 * k]!, 10);
        expect(found[2 * k + 1]).toBeCloseTo(expected[2 * k + 1]!, 10);
      }
    }
  },
);
