/** Small complex matrices, row by row. */
import { add, type Complex, conjugate, times } from './complex.ts';
import { eigenvaluesOf } from './complex-eigenvalues.ts';

export type ComplexMatrix = readonly (readonly Complex[])[];

export function product(A: ComplexMatrix, B: ComplexMatrix): Complex[][] {
  return A.map((row) =>
    B[0]!.map((_, j) => row.reduce((sum, a, k) => add(sum, times(a, B[k]![j]!)), { re: 0, im: 0 })),
  );
}

/** A + f I. */
export function plusIdentity(A: ComplexMatrix, f: number): Complex[][] {
  return A.map((row, i) => row.map((a, j) => (i === j ? { re: a.re + f, im: a.im } : a)));
}

/** Largest singular value: the root of the largest eigenvalue of Aᴴ A. */
export function largestSingularValue(A: ComplexMatrix): number {
  const turned = A[0]!.map((_, j) => A.map((row) => conjugate(row[j]!)));
  return Math.sqrt(Math.max(0, ...eigenvaluesOf(product(turned, A)).map(({ re }) => re)));
}

/** Inverse by Gauss and Jordan with partial pivoting. */
export function inverseOf(G: ComplexMatrix): Complex[][] {
  const n = G.length;
  const a = G.map((row, i) => [...row, ...row.map((_, j) => ({ re: i === j ? 1 : 0, im: 0 }))]);
  for (let p = 0; p < n; p++) {
    let best = p;
    for (let r = p + 1; r < n; r++) {
      if (Math.hypot(a[r]![p]!.re, a[r]![p]!.im) > Math.hypot(a[best]![p]!.re, a[best]![p]!.im)) best = r;
    }
    [a[p], a[best]] = [a[best]!, a[p]!];
    const pivot = a[p]![p]!;
    const d = pivot.re ** 2 + pivot.im ** 2;
    a[p] = a[p]!.map(({ re, im }) => ({
      re: (re * pivot.re + im * pivot.im) / d,
      im: (im * pivot.re - re * pivot.im) / d,
    }));
    for (let r = 0; r < n; r++) {
      if (r === p) continue;
      const f = a[r]![p]!;
      a[r] = a[r]!.map(({ re, im }, j) => {
        const b = a[p]![j]!;
        return { re: re - (f.re * b.re - f.im * b.im), im: im - (f.re * b.im + f.im * b.re) };
      });
    }
  }
  return a.map((row) => row.slice(n));
}
