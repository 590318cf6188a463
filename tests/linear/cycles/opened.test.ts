/**
 * Loops opened in a direction of two places, against closed forms: two first-order units x' = −x + u, each under its own gain
 * u = −K x, which answer T = −K/(s + 1 + K), and what comes back across a direction where the two differ.
 */
import { expect, it } from 'vitest';
import { openedPlant } from '../../../src/linear/cycles/opened.ts';
import type { Sampled } from '../../../src/linear/sampled.ts';

function units(gains: readonly [number, number]) {
  const A = Float64Array.from([-1 - gains[0], 0, 0, -1 - gains[1]]);
  const system = { plant: { A, n: 2 }, tick_s: 1e-7, rungTicks: 1 } as unknown as Sampled;
  const places = gains.map((K, k) => ({
    push: Float64Array.from([0, 1], (x) => (x === k ? 1 : 0)),
    read: Float64Array.from([0, 1], (x) => (x === k ? -K : 0)),
  }));
  return openedPlant(system, places, [1, -1]);
}

/** T at ω, real and imaginary. */
const answer = (K: number, omega: number): readonly [number, number] => {
  const size = (1 + K) ** 2 + omega ** 2;
  return [(-K * (1 + K)) / size, (K * omega) / size];
};

it('of equal units is the loop of one, with nothing across and the growth of its gain', () => {
  const loop = units([3, 3]);
  expect(loop.standing).toBeCloseTo(-3 / 4, 5);
  expect(loop.across_ratio(2)).toBeCloseTo(0, 12);
  // K/(s + 1) at ω = 1 is 3/√2 at −45°, up to its sign.
  const { re, im } = loop.at(1 / (2 * Math.PI));
  expect(Math.hypot(re, im)).toBeCloseTo(3 / Math.SQRT2, 6);
  // Gain g in the direction: −1 − 3 g; the other direction keeps −4.
  expect(loop.growth(1)).toBeCloseTo(-4, 9);
  expect(loop.growth(0.5)).toBeCloseTo(-2.5, 9);
  expect(loop.growth(2)).toBeCloseTo(-4, 9);
  expect(loop.growth(-2)).toBeCloseTo(5, 9);
});

it('of unequal units tells how much comes back across', () => {
  const [K1, K2, omega] = [2, 6, 5];
  const [a, b] = [answer(K1, omega), answer(K2, omega)];
  const along = Math.hypot(a[0] + b[0], a[1] + b[1]) / 2;
  const across = Math.hypot(a[0] - b[0], a[1] - b[1]) / 2;
  expect(units([K1, K2]).across_ratio(omega / (2 * Math.PI))).toBeCloseTo(across / along, 6);
});
