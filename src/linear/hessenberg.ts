/**
 * Reduction to Hessenberg form, A = Q H Qᵀ, made once; eigenvalues and solutions of (s I − A) x = b then cost
 * the square of the size only.
 */
import { hessenbergValues, toHessenberg } from '../dense/hessenberg-form.ts';
import type { Complex } from './complex.ts';

export class Hessenberg {
  readonly n: number;
  readonly h: Float64Array;
  readonly q: Float64Array;
  private readonly re: Float64Array;
  private readonly im: Float64Array;

  /** `vectors` false: for eigenvalues alone, Q is not kept. */
  constructor(a: Float64Array, n: number, vectors = true) {
    this.n = n;
    this.h = a.slice();
    const kept = vectors ? n * n : 0;
    this.q = new Float64Array(kept);
    this.re = new Float64Array(kept);
    this.im = new Float64Array(kept);
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

  /**
   * Solves (s I − A) X = B at one complex s for several right sides, given and answered in the basis of H
   * (real parts and imaginary parts apart), in place. Gauss with the pivot taken from two rows.
   */
  solve(s: Complex, sides: readonly { readonly re: Float64Array; readonly im: Float64Array }[]): void {
    const { n, h, re, im } = this;
    for (let k = 0; k < n * n; k++) re[k] = -h[k]!;
    im.fill(0);
    for (let k = 0; k < n; k++) {
      re[k * n + k]! += s.re;
      im[k * n + k] = s.im;
    }
    for (let p = 0; p < n - 1; p++) {
      const a = p * n;
      const b = a + n;
      if (size2(re[b + p]!, im[b + p]!) > size2(re[a + p]!, im[a + p]!)) {
        for (let j = p; j < n; j++) {
          const kr = re[a + j]!;
          const ki = im[a + j]!;
          re[a + j] = re[b + j]!;
          im[a + j] = im[b + j]!;
          re[b + j] = kr;
          im[b + j] = ki;
        }
        for (const side of sides) {
          const kr = side.re[p]!;
          const ki = side.im[p]!;
          side.re[p] = side.re[p + 1]!;
          side.im[p] = side.im[p + 1]!;
          side.re[p + 1] = kr;
          side.im[p + 1] = ki;
        }
      }
      const pr = re[a + p]!;
      const pi = im[a + p]!;
      const d = size2(pr, pi);
      if (d === 0) throw new RangeError(`s = ${s.re} + ${s.im} j is an eigenvalue`);
      const fr = (re[b + p]! * pr + im[b + p]! * pi) / d;
      const fi = (im[b + p]! * pr - re[b + p]! * pi) / d;
      if (fr === 0 && fi === 0) continue;
      for (let j = p + 1; j < n; j++) {
        re[b + j]! -= fr * re[a + j]! - fi * im[a + j]!;
        im[b + j]! -= fr * im[a + j]! + fi * re[a + j]!;
      }
      for (const side of sides) {
        side.re[p + 1]! -= fr * side.re[p]! - fi * side.im[p]!;
        side.im[p + 1]! -= fr * side.im[p]! + fi * side.re[p]!;
      }
    }
    for (const side of sides) {
      for (let p = n - 1; p >= 0; p--) {
        let sr = side.re[p]!;
        let si = side.im[p]!;
        const a = p * n;
        for (let j = p + 1; j < n; j++) {
          sr -= re[a + j]! * side.re[j]! - im[a + j]! * side.im[j]!;
          si -= re[a + j]! * side.im[j]! + im[a + j]! * side.re[j]!;
        }
        const pr = re[a + p]!;
        const pi = im[a + p]!;
        const d = size2(pr, pi);
        side.re[p] = (sr * pr + si * pi) / d;
        side.im[p] = (si * pr - sr * pi) / d;
      }
    }
  }

  /** All eigenvalues, by the shifted QR iteration on a copy of H. */
  eigenvalues(): Complex[] {
    const { n } = this;
    const [re, im] = [new Float64Array(n), new Float64Array(n)];
    hessenbergValues(this.h.slice(), n, re, im);
    return Array.from(re, (real, k) => ({ re: real, im: im[k]! }));
  }
}

function size2(a: number, b: number): number {
  return a * a + b * b;
}
