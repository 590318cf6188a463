/** Held to Math.exp, which is good to a unit in the last place. */
import { expect, it } from 'vitest';
import { exponential } from '../../src/base/exponential.ts';

it('the exponential is that of the platform to 1e-15 of it, from its smallest normal number to its largest', () => {
  for (let x = -708; x <= 709; x += 0.173) {
    expect(Math.abs(exponential(x) / Math.exp(x) - 1), `${x}`).toBeLessThan(1e-15);
  }
  expect([exponential(0), exponential(-800), exponential(800)]).toEqual([1, 0, Number.POSITIVE_INFINITY]);
  expect(exponential(Number.NaN)).toBeNaN();
});
