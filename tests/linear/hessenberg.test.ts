/**
 * Eigenvalues of matrices with lines of pure delay in them, as sampled firmware makes them: a delay of k samples has k
 * eigenvalues at 0, which rounding spreads and among which the QR iteration wanders. Held by traces: the sum of the
 * eigenvalues' m-th powers is the trace of Aᵐ.
 */
import { describe, expect, it } from 'vitest';
import type { Complex } from '../../src/linear/complex.ts';
import { Hessenberg } from '../../src/linear/hessenberg.ts';

/** Numbers from −0.5 to 0.5, the same for the same seed. */
function draws(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647 - 0.5;
  };
}

/** Lines of `length` samples, fed from all their ends, seen through two random reflections. */
function delayLines(n: number, length: number, seed: number): Float64Array {
  const draw = draws(seed);
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    if (i % length !== 0) a[i * n + i - 1] = 1;
    else for (let j = 0; j < n; j += length) a[i * n + j] = 0.3 * draw();
  }
  for (let pass = 0; pass < 2; pass++) reflect(a, n, draw);
  return a;
}

/** A ← P A P with P = I − 2 u uᵀ/uᵀu, which keeps the eigenvalues. */
function reflect(a: Float64Array, n: number, draw: () => number): void {
  const u = Float64Array.from({ length: n }, draw);
  const square = u.reduce((sum, x) => sum + x * x, 0);
  for (let j = 0; j < n; j++) {
    let s = 0;
    for (let i = 0; i < n; i++) s += u[i]! * a[i * n + j]!;
    for (let i = 0; i < n; i++) a[i * n + j]! -= (2 * s * u[i]!) / square;
  }
  for (let i = 0; i < n; i++) {
    let s = 0;
    for (let j = 0; j < n; j++) s += u[j]! * a[i * n + j]!;
    for (let j = 0; j < n; j++) a[i * n + j]! -= (2 * s * u[j]!) / square;
  }
}

function product(a: Float64Array, b: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) {
      const f = a[i * n + k]!;
      for (let j = 0; j < n; j++) out[i * n + j]! += f * b[k * n + j]!;
    }
  }
  return out;
}

function trace(a: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += a[i * n + i]!;
  return sum;
}

const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});

describe('eigenvalues() of lines of delay', () => {
  it.each([3, 4, 5, 6, 8])('are found for 60 matrices with delays of %i samples', (length) => {
    for (let seed = 1; seed <= 60; seed++) {
      const n = 3 * length + (seed % 9);
      const a = delayLines(n, length, seed * 7919);
      const values = new Hessenberg(a, n, false).eigenvalues();
      expect(values).toHaveLength(n);
      let powers = values;
      let power = a;
      for (let m = 1; m <= 3; m++) {
        const sum = powers.reduce((s, z) => s + z.re, 0);
        expect(Math.abs(sum - trace(power, n)), `seed ${seed}, power ${m}`).toBeLessThan(1e-10);
        powers = powers.map((z, k) => times(z, values[k]!));
        power = product(power, a, n);
      }
    }
  });
});
