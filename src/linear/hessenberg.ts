/**
 * Reduction to Hessenberg form, A = Q H Qᵀ, made once; eigenvalues and solutions of (s I − A) x = b then cost
 * the square of the size only.
 */
import {
  type ComplexColumn,
  hessenbergValues,
  solveShiftedHessenberg,
  toHessenberg,
} from '../dense/hessenberg-form.ts';
import type { Complex } from './complex.ts';

export class Hessenberg {
  readonly n: number;
  readonly h: Float64Array;
  readonly q: Float64Array;
  /** Of H, one after the other: made for the first system that is solved. */
  private columns: Float64Array | null = null;

  /** `vectors` false: for eigenvalues alone, Q is not kept. */
  constructor(a: Float64Array, n: number, vectors = true) {
    this.n = n;
    this.h = a.slice();
    this.q = new Float64Array(vectors ? n * n : 0);
    toHessenberg(this.h, this.q, n);
  }

  /** Qᵀ b: a right side in the basis of H. */
  into(b: Float64Array): Float64Array {
    const { n, q } = this;
    const out = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const f = b[i]!;
      if (f !== 0) for (let j = 0; j < n; j++) out[j]! += f * q[i * n + j]!;
    }
    return out;
  }

  /** Q x: back to the basis of A. */
  back(x: Float64Array): Float64Array {
    const { n, q } = this;
    const out = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      let s = 0;
      for (let j = 0; j < n; j++) s += q[i * n + j]! * x[j]!;
      out[i] = s;
    }
    return out;
  }

  /** Solves (s I − A) X = B at one complex s for several right sides, given and answered in the basis of H, in place. */
  solve(s: Complex, sides: readonly ComplexColumn[]): void {
    this.columns ??= transposed(this.h, this.n);
    solveShiftedHessenberg(this.columns, this.n, s, sides);
  }

  /** All eigenvalues, by the shifted QR iteration on a copy of H. */
  eigenvalues(): Complex[] {
    const { n } = this;
    const [re, im] = [new Float64Array(n), new Float64Array(n)];
    hessenbergValues(this.h.slice(), n, re, im);
    return Array.from(re, (real, k) => ({ re: real, im: im[k]! }));
  }
}

function transposed(a: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) out[j * n + i] = a[i * n + j]!;
  return out;
}
