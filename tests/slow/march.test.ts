/** Stretches against closed forms. */
import { describe, expect, it } from 'vitest';
import { exponential } from '../../src/base/exponential.ts';
import { march } from '../../src/slow/march.ts';
import { type SlowLaw, towards } from '../../src/slow/slow-law.ts';

/** dx/dt = x (1 − x): bends, comes to rest at 1, and has a closed form (P. F. Verhulst, 1838). */
const logistic: SlowLaw = { rate: (x) => x * (1 - x), slope: (x) => 1 - 2 * x };
const grown = (x0: number, t: number): number => 1 / (1 + (1 / x0 - 1) * exponential(-t));

describe('march()', () => {
  it('is exact for a linear law, however long the stretch', () => {
    for (const length_s of [1e-6, 1, 640, 1e5]) {
      const expected = 40 - 10 * exponential(-length_s / 640);
      expect(march(towards(40, 640), 30, length_s, 1)).toBeCloseTo(expected, 11);
    }
  });

  it('is there at once without a time constant', () => {
    expect(march(towards(40, 0), 30, 1, 1e-3)).toBe(40);
  });

  it('stays within the stated bound where a law bends, at any bound', () => {
    for (const bound of [1e-2, 1e-4, 1e-6, 1e-8])
      for (const t of [0.5, 3, 20]) {
        const error = Math.abs(march(logistic, 5, t, bound) - grown(5, t));
        expect(error, `bound ${bound}, t ${t}`).toBeLessThan(bound);
      }
  });

  it('follows a state that runs away to no number, and does not hang there', () => {
    const away: SlowLaw = { rate: (x) => x, slope: () => 1 };
    expect(march(away, 1, 2, 1e-6)).toBeCloseTo(exponential(2), 9);
    expect(march(away, 1, 1e6, 1e-6)).toBe(Number.POSITIVE_INFINITY);
  });
});
