/** Transforms of any length: compiled and as they stand the same bits, both against fft.js and against sums written out. */
import FFT from 'fft.js';
import { describe, expect, it } from 'vitest';
import { inverse, inverseInPlace, transform } from '../../../src/analysis/signal/fourier.ts';
import { compiled } from '../../../src/dense/compiled.ts';
import { transformAny, transformPower } from '../../../src/dense/fourier.ts';
import { turnsFor } from '../../../src/dense/turns.ts';

/** Complex numbers from −1 to 1, the same for the same seed. */
function drawn(count: number, seed: number): Float64Array {
  let state = seed * 7919 + 1;
  return Float64Array.from({ length: 2 * count }, () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  });
}

const furthest = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, x, k) => Math.max(most, Math.abs(x - b[k]!)), 0);

function writtenOut(x: Float64Array): Float64Array {
  const n = x.length / 2;
  const X = new Float64Array(2 * n);
  for (let k = 0; k < n; k++) {
    for (let j = 0; j < n; j++) {
      const angle = (2 * Math.PI * ((j * k) % n)) / n;
      X[2 * k]! += x[2 * j]! * Math.cos(angle) + x[2 * j + 1]! * Math.sin(angle);
      X[2 * k + 1]! += x[2 * j + 1]! * Math.cos(angle) - x[2 * j]! * Math.sin(angle);
    }
  }
  return X;
}

describe('a transform', () => {
  it.each([1, 2, 3, 4, 5, 7, 8, 12, 16, 31, 32, 64, 100, 127, 128, 160, 243])(
    'of %i values is their sum',
    (n) => {
      const x = drawn(n, n);
      expect(furthest(transform(x), writtenOut(x))).toBeLessThan(1e-15 * n + 1e-15);
      expect(furthest(inverse(transform(x)), x)).toBeLessThan(1e-14);
    },
  );

  it.each([2, 4, 8, 16, 512, 1024, 4096])('of %i values is what fft.js makes of them', (n) => {
    const x = drawn(n, 3);
    const other: number[] = [];
    new FFT(n).transform(other, [...x]);
    expect(furthest(transform(x), Float64Array.from(other))).toBeLessThan(1e-13);
  });

  it('leaves its values as they were', () => {
    const x = drawn(20, 1);
    const before = x.slice();
    transform(x);
    inverse(x);
    expect(x).toEqual(before);
    inverseInPlace(x);
    expect(x).toEqual(inverse(before));
  });
});

describe('compiled and as it stands', () => {
  const fast = compiled()!;

  it.each([2, 4, 8, 32, 1024])('the transform of %i values has the same bits', (n) => {
    const [plain, other] = [drawn(n, 5), drawn(n, 5)];
    const turns = turnsFor(n);
    transformPower(plain, n, turns);
    fast.through([other, turns], [other], (...at) => fast.call.transformPower(at[0]!, n, at[1]!));
    expect(other).toEqual(plain);
  });

  it.each([3, 6, 25, 160])('that of %i values by the chirp has the same bits', (n) => {
    const size = 512;
    const [chirp, spectrum, room] = [drawn(n, 7), drawn(size, 8), new Float64Array(2 * size)];
    const turns = turnsFor(size);
    const [plain, other] = [drawn(n, 9), drawn(n, 9)];
    transformAny(plain, n, chirp, spectrum, room.slice(), size, turns);
    fast.through([other, chirp, spectrum, room, turns], [other], (...at) =>
      fast.call.transformAny(at[0]!, n, at[1]!, at[2]!, at[3]!, size, at[4]!),
    );
    expect(other).toEqual(plain);
  });
});

describe('turns', () => {
  it('are parts of a whole one, in a table that only grows', () => {
    const short = turnsFor(16).slice();
    const long = turnsFor(256);
    expect(long.subarray(0, 32)).toEqual(short);
    for (const half of [1, 2, 4, 8, 128]) {
      for (let j = 0; j < half; j++) {
        const at = 2 * (half + j);
        expect(long[at]).toBeCloseTo(Math.cos((Math.PI * j) / half), 15);
        expect(long[at + 1]).toBeCloseTo(-Math.sin((Math.PI * j) / half), 15);
      }
    }
  });
});
