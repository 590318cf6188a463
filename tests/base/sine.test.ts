/** Held to Math.sin and Math.cos, which are good to a unit in the last place. */
import { expect, it } from 'vitest';
import { cosine, cosineOfTurns, sine, tangent } from '../../src/base/sine.ts';

it('sine and cosine are those of the platform to 3e-16, over many turns and both signs', () => {
  for (let k = -20_000; k <= 20_000; k++) {
    const x = k * 0.05 + 1e-4;
    expect(Math.abs(sine(x) - Math.sin(x)), `${x}`).toBeLessThan(3e-16);
    expect(Math.abs(cosine(x) - Math.cos(x)), `${x}`).toBeLessThan(3e-16);
  }
});

it('has its zeros, signs and ends', () => {
  expect(sine(0)).toBe(0);
  expect(cosine(0)).toBe(1);
  expect(sine(Math.PI / 2)).toBe(1);
  expect(cosine(Math.PI)).toBe(-1);
  expect(sine(-1)).toBe(-sine(1));
  expect(cosine(-1)).toBe(cosine(1));
});

it('the tangent is that of the platform, and turns may be many', () => {
  for (let x = 0.01; x < 1.5; x += 0.01)
    expect(Math.abs(tangent(x) / Math.tan(x) - 1), `${x}`).toBeLessThan(1e-15);
  expect(cosineOfTurns(1e9 + 0.25)).toBeCloseTo(0, 15);
  expect([cosineOfTurns(-7), cosineOfTurns(12345678.5)]).toEqual([1, -1]);
});
