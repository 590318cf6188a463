import { expect, test } from 'vitest';
import { agreementOf, type Sums } from '../../src/measured/agreement.ts';

/** Sums of a sine and of the same with an error of the given RMS at right angles to it. */
function sumsWith(error: number): Sums {
  const n = 1000;
  const sums: Sums = { n, s: 0, m: 0, ss: 0, mm: 0, sm: 0 };
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
    (error) => agreementOf(sumsWith(error), noise).gained,
  );
  for (let k = 1; k < gained.length; k++) expect(gained[k]!).toBeGreaterThan(gained[k - 1]! + 1);
  expect(Number.isFinite(gained.at(-1)!)).toBe(true);
});

test('agreementOf() gains nothing by a curve without shape', () => {
  const flat: Sums = { n: 100, s: 0, m: 0, ss: 0, mm: 4, sm: 0 };
  expect(agreementOf(flat, 0.01).gained).toBe(0);
});
