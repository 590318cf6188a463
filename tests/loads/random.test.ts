import { expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';

test('the same seed gives the same sequence, neighbouring seeds unlike ones', () => {
  const take = (seed: number) => {
    const r = new Random(seed);
    return Array.from({ length: 4 }, () => r.next());
  };
  expect(take(7)).toEqual(take(7));
  expect(take(7)).not.toEqual(take(8));
  expect(take(0).some((x) => x !== 0)).toBe(true);
});

// Standard errors of n = 200 000 draws: mean 0.0022, variance 0.0032, fourth moment 0.022; bounds are 4 of each.
test('gaussian() has mean 0, variance 1, kurtosis 3 and the right share beyond two deviations', () => {
  const n = 200_000;
  const r = new Random(3);
  let s1 = 0;
  let s2 = 0;
  let s4 = 0;
  let beyond = 0;
  for (let i = 0; i < n; i++) {
    const g = r.gaussian();
    s1 += g;
    s2 += g * g;
    s4 += g ** 4;
    if (Math.abs(g) > 2) beyond++;
  }
  expect(Math.abs(s1 / n)).toBeLessThan(0.009);
  expect(Math.abs(s2 / n - 1)).toBeLessThan(0.013);
  expect(Math.abs(s4 / n - 3)).toBeLessThan(0.09);
  expect(Math.abs(beyond / n - 0.0455)).toBeLessThan(0.002);
});

test('uniform() fills its ten tenths evenly', () => {
  const r = new Random(11);
  const bins = new Array<number>(10).fill(0);
  for (let i = 0; i < 100_000; i++) bins[Math.floor(r.uniform() * 10)]!++;
  // Each bin: 10 000 expected, deviation 95; five deviations.
  for (const bin of bins) expect(Math.abs(bin - 10_000)).toBeLessThan(475);
});
