import { describe, expect, it } from 'vitest';
import { power } from '../../src/base/power.ts';

describe('power()', () => {
  it('is x to the power y to 1e-13 of it', () => {
    for (const x of [1e-6, 0.03, 0.5, 1, 1.178, 2, 17, 4e5])
      for (const y of [-3, -0.39, 0, 0.5, 1 / 0.61, 4]) expect(power(x, y) / x ** y).toBeCloseTo(1, 13);
  });

  it('ends where powers end', () => {
    expect([power(0, 2), power(0, -2), power(Number.POSITIVE_INFINITY, 1), power(10, 400)]).toEqual([
      0,
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
    ]);
    expect(power(Number.POSITIVE_INFINITY, -1)).toBe(0);
    expect(power(-1, 0.5)).toBeNaN();
  });
});
