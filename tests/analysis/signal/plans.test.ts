/** Plans with columns of our own in a transform of the library's, against sums written out. */
import { describe, expect, it } from 'vitest';
import { planOf } from '../../../src/analysis/signal/plans.ts';

describe('planOf()', () => {
  it.each([2, 4, 8, 16, 32, 64, 128])('transforms %d complex values as the sum written out does', (n) => {
    const x = Float64Array.from({ length: 2 * n }, (_, k) => ((k * 37 + 11) % 29) - 14);
    const X = new Float64Array(2 * n);
    planOf(n).transform(X, x);
    for (let k = 0; k < n; k++) {
      let [re, im] = [0, 0];
      for (let j = 0; j < n; j++) {
        const turn = (-2 * Math.PI * ((j * k) % n)) / n;
        re += x[2 * j]! * Math.cos(turn) - x[2 * j + 1]! * Math.sin(turn);
        im += x[2 * j]! * Math.sin(turn) + x[2 * j + 1]! * Math.cos(turn);
      }
      expect(X[2 * k]).toBeCloseTo(re, 9);
      expect(X[2 * k + 1]).toBeCloseTo(im, 9);
    }
  });

  it.each([0, 1, 3, 12, 1000])('refuses %d, which is no power of two from 2 on', (n) => {
    expect(() => planOf(n)).toThrow(RangeError);
  });
});
