import { expect, test } from 'vitest';
import { agreementOf, type Sums } from '../../src/measured/agreement.ts';

/** Sums of a sine and of the same with an error of the given RMS at right angles to it. */
function sumsWith(error: number): Sums {
  const n = 1000;
  const sums: Sums = { n, s: 0, m: 0, ss: 0, mm: 0, sm: 0, apart: 0 };
  for (let i = 0; i < n; i++) {
    const s = Math.sin((2 * Math.PI * 3 * i) / n);
    const m = s + error * Math.SQRT2 * Math.cos((2 * Math.PI * 3 * i) / n);
    sums.s += s;
    sums.m += m;
    sums.ss += s * s;
    sums.mm += m * m;
    sums.sm += s * m;
  }
  return sums;
}

test('agreementOf() gains with every error that is smaller, also where the noise is overestimated', () => {
  const noise = 0.02;
  const gained = [0.04, 0.02, 0.01, 0.005, 0.0025, 0].map(
    (error) => agreementOf(sumsWith(error), noise, null).gained,
  );
  for (let k = 1; k < gained.length; k++) expect(gained[k]!).toBeGreaterThan(gained[k - 1]! + 1);
  expect(Number.isFinite(gained.at(-1)!)).toBe(true);
});

test('agreementOf() gains nothing by a curve without shape', () => {
  const flat: Sums = { n: 100, s: 0, m: 0, ss: 0, mm: 4, sm: 0, apart: 0 };
  expect(agreementOf(flat, 0.01, null).gained).toBe(0);
});

test('agreementOf() counts a gain and a bias beyond the class as errors, and by shape alone as none', () => {
  const noise = 0.02;
  const right = sumsWith(noise);
  const swung = { ...right, m: 1.2 * right.m, mm: 1.44 * right.mm, sm: 1.2 * right.sm };
  const within = { gain_ratio: 0.002, bias: 0.001 };
  const left = (sums: Sums, by: typeof within | null): number => agreementOf(sums, noise, by).left;
  expect(left({ ...right, apart: 0.1 }, null)).toBe(left(right, null));
  expect(left(right, within)).toBeCloseTo(left(right, null), 6);
  // n β² = 0.001, σ² = 0.0004: so much of n 0.1² is left.
  const variance = noise * noise;
  expect(left({ ...right, apart: 0.1 }, within) - left(right, within)).toBeCloseTo(
    (10 * variance) / (variance + 0.001),
    6,
  );
  // Σs² = 500; 1.2 e is left of e.
  const gainLeft = (0.2 ** 2 * 500 * 1.44 * variance) / (1.44 * variance + 500 * 0.002 ** 2);
  expect(left(swung, within) - left(swung, null)).toBeCloseTo(gainLeft, 6);
});
