import { describe, expect, it } from 'vitest';
import { logarithm } from '../../src/base/logarithm.ts';

describe('the logarithm', () => {
  it('agrees with the engine own to 1e-14 over thirty orders of magnitude', () => {
    for (let x = 1e-15; x < 1e15; x *= 1.37) {
      const own = Math.log(x);
      expect(Math.abs(logarithm(x) - own)).toBeLessThanOrEqual(1e-14 * Math.max(1, Math.abs(own)));
    }
    expect(logarithm(1)).toBe(0);
  });

  it('has no number below zero, and none that is finite at its ends', () => {
    expect(logarithm(-1)).toBeNaN();
    expect(logarithm(Number.NaN)).toBeNaN();
    expect(logarithm(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(logarithm(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });
});
