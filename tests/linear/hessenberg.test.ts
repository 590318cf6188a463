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

/** Full, without any structure. */
function random(n: number, seed: number): Float64Array {
  const draw = draws(seed);
  return Float64Array.from({ length: n * n }, draw);
}

describe('the reduction A = Q H Qᵀ', () => {
  it.each([1, 2, 3, 7, 20])('leaves H zero below its first subdiagonal, and Q H Qᵀ is A at size %i', (n) => {
    const a = random(n, 7919 * n);
    const { h, q } = new Hessenberg(a, n);
    for (let i = 2; i < n; i++) for (let j = 0; j < i - 1; j++) expect(h[i * n + j]).toBe(0);
    const transposed = Float64Array.from({ length: n * n }, (_, k) => q[(k % n) * n + Math.floor(k / n)]!);
    const again = product(product(q, h, n), transposed, n);
    again.forEach((x, k) => {
      expect(Math.abs(x - a[k]!)).toBeLessThan(1e-13 * n);
    });
  });

  it('takes a vector into the basis of H and back', () => {
    const n = 12;
    const form = new Hessenberg(random(n, 31), n);
    const b = Float64Array.from({ length: n }, draws(5));
    const inside = form.into(b);
    expect(inside).not.toEqual(b);
    form.back(inside).forEach((x, k) => {
      expect(x).toBeCloseTo(b[k]!, 13);
    });
  });

  it.each([
    { re: 0.3, im: 2 },
    { re: -1, im: 0 },
    { re: 0, im: 0.01 },
  ])('solves (s I − A) x = b at s = $re + $im j', (s) => {
    const n = 15;
    const a = random(n, 104729);
    const form = new Hessenberg(a, n);
    const b = Float64Array.from({ length: n }, draws(11));
    const side = { re: form.into(b), im: new Float64Array(n) };
    const other = { re: new Float64Array(n), im: form.into(b) };
    form.solve(s, [side, other]);
    const [re, im] = [form.back(side.re), form.back(side.im)];
    for (let i = 0; i < n; i++) {
      let [left, right] = [s.re * re[i]! - s.im * im[i]!, s.re * im[i]! + s.im * re[i]!];
      for (let j = 0; j < n; j++) {
        left -= a[i * n + j]! * re[j]!;
        right -= a[i * n + j]! * im[j]!;
      }
      expect(left).toBeCloseTo(b[i]!, 11);
      expect(right).toBeCloseTo(0, 11);
    }
    // A second right side, j b, has j times that answer.
    form.back(other.im).forEach((x, k) => {
      expect(x).toBeCloseTo(re[k]!, 11);
    });
  });

  it('says so where s is an eigenvalue', () => {
    const side = { re: Float64Array.of(1, 1), im: new Float64Array(2) };
    expect(() => new Hessenberg(Float64Array.of(2, 0, 0, 3), 2).solve({ re: 2, im: 0 }, [side])).toThrow(
      's = 2 + 0 j is an eigenvalue',
    );
  });
});

describe('eigenvalues() in closed form', () => {
  const valuesOf = (n: number, ...a: number[]): Complex[] =>
    new Hessenberg(Float64Array.of(...a), n).eigenvalues().sort((x, y) => x.re - y.re || x.im - y.im);
  const near = (values: readonly (readonly [number, number])[]) =>
    values.map(([re, im]) => ({ re: expect.closeTo(re, 12), im: expect.closeTo(im, 12) }));

  it('of a rotation, a saddle and a shear', () => {
    expect(valuesOf(2, 0, -2, 2, 0)).toEqual(
      near([
        [0, -2],
        [0, 2],
      ]),
    );
    expect(valuesOf(2, 1, 2, 2, 1)).toEqual(
      near([
        [-1, 0],
        [3, 0],
      ]),
    );
    expect(valuesOf(2, 5, 1, 0, 5)).toEqual(
      near([
        [5, 0],
        [5, 0],
      ]),
    );
  });

  it('of a cyclic shift of three: the cube roots of one', () => {
    const half = Math.sqrt(3) / 2;
    expect(valuesOf(3, 0, 0, 1, 1, 0, 0, 0, 1, 0)).toEqual(
      near([
        [-0.5, -half],
        [-0.5, half],
        [1, 0],
      ]),
    );
  });

  it('of the second difference of a string of five: −2 + 2 cos(k π/6)', () => {
    const rows = Array.from({ length: 25 }, (_, k) => {
      const d = Math.abs((k % 5) - Math.floor(k / 5));
      return d === 0 ? -2 : d === 1 ? 1 : 0;
    });
    expect(valuesOf(5, ...rows)).toEqual(
      near([5, 4, 3, 2, 1].map((k) => [-2 + 2 * Math.cos((k * Math.PI) / 6), 0])),
    );
  });
});
