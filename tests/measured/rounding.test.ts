import { describe, expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { noiseOf } from '../../src/measured/noise.ts';
import { isRounding, roundingOf } from '../../src/measured/rounding.ts';
import { whitenessOf } from '../../src/measured/whiteness.ts';

/** A bus that settles, seen by an instrument with little noise and a coarse grid. */
const settling = (level: number): Float64Array =>
  Float64Array.from({ length: 400 }, (_, k) => level - (k < 100 ? 0 : 0.7 - 0.3 * Math.exp((100 - k) / 60)));
function readOf(curve: Float64Array, grid: number, noise: number, seed: number): Float64Array {
  const random = new Random(seed);
  return curve.map((v) => grid * Math.round((v + noise * random.gaussian()) / grid));
}

describe('roundingOf()', () => {
  test.each([0.1, 0.05, 10, 3e-4])('finds a grid of %d, also shifted and scaled', (grid) => {
    const read = readOf(
      settling(50).map((v) => (v * grid) / 0.1),
      grid,
      grid / 5,
      1,
    );
    expect(roundingOf(read).step).toBeCloseTo(grid, 9);
    expect(roundingOf(read.map((v) => v / 1.01 + 0.3)).step).toBeCloseTo(grid / 1.01, 9);
  });

  test('finds none in values that lie anywhere', () => {
    const random = new Random(2);
    expect(roundingOf(settling(50).map((v) => v + 0.004 * random.gaussian())).step).toBe(0);
  });
});

describe('whitenessOf() what is left of values on a coarse grid', () => {
  // A level half way between two values of the grid is off by half a step on every sample: 1.7 times q/√12.
  test.each([50.05, 50.02, 50, 49.97])(
    'is rounding about a level of %d V, with the memory that it has',
    (level) => {
      const curve = settling(level);
      const read = readOf(curve, 0.1, 0.004, 3);
      const left = read.map((m, i) => m - curve[i]!);
      const found = whitenessOf(left, { noise: noiseOf(read), rounding: roundingOf(read) }, null);
      expect([found.isNoise, found.signs]).toEqual([true, []]);
      expect(found.memory).toBeGreaterThan(5);
    },
  );

  test('is a misfit where the model is off by more than the grid hides', () => {
    const curve = settling(50);
    const read = readOf(curve, 0.1, 0.004, 4);
    const left = read.map((m, i) => m - curve[i]! - 0.12 * Math.sin(i / 20));
    expect(isRounding(left, roundingOf(read))).toBe(false);
    expect(whitenessOf(left, { noise: noiseOf(read), rounding: roundingOf(read) }, null).isNoise).toBe(false);
  });
});
