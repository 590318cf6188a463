import { describe, expect, it } from 'vitest';
import { cubeRoot, power } from '../../src/base/power.ts';

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

it('cubeRoot() is that of the platform to 1e-15 of it, with its sign', () => {
  for (let x = 1e-12; x < 1e12; x *= 1.37)
    for (const sign of [-1, 1])
      expect(Math.abs(cubeRoot(sign * x) / Math.cbrt(sign * x) - 1), `${x}`).toBeLessThan(1e-15);
  expect(cubeRoot(0)).toBe(0);
});
