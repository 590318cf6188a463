/**
 * The largest eigenvalues of a map that is known only by what it does to vectors: a Krylov basis, and the
 * eigenvalues of the small Hessenberg matrix the map has in it.
 * Reference: W. E. Arnoldi, Quarterly of Applied Mathematics 9, 1951.
 */
import type { Complex } from './complex.ts';
import { Hessenberg } from './hessenberg.ts';

/** Residual over its eigenvalue below which a value counts as settled. */
const settled = 1e-5;

/** Values of at least this share of the largest must have settled before the basis is deep enough. */
const ofLargest = 0.9;

/** Size of the basis for the eigenvalues of a map, and the value above which they must have settled in it. */
export interface Basis {
  readonly depth: number;
  readonly least: number;
  /** Those that must have settled; all where it is left out. */
  readonly asked?: (z: Complex) => boolean;
}

/**
 * Eigenvalues of `carry` (in place, over vectors of `size`) above `least` in magnitude that have settled, from a
 * basis of `depth` vectors, or as many more as the largest of those asked for need, up to five times that. Of values
 * that coincide one is found.
 */
export function largestEigenvalues(
  carry: (z: Float64Array) => void,
  size: number,
  { depth, least, asked = () => true }: Basis,
): Complex[] {
  const most = Math.min(5 * depth, size);
  const basis: Float64Array[] = [start(size)];
  const H: number[][] = [];
  let found: Complex[] = [];
  for (let m = 0; m < most; m++) {
    const w = basis[m]!.slice();
    carry(w);
    const column = new Array<number>(m + 2).fill(0);
    // Twice, or rounding lets vectors back in that were taken out.
    for (let pass = 0; pass < 2; pass++) takeOut(basis, w, column);
    let norm = 0;
    for (let i = 0; i < size; i++) norm += w[i]! * w[i]!;
    norm = Math.sqrt(norm);
    column[m + 1] = norm;
    H.push(column);
    const whole = norm < 1e-10 || m + 1 === most;
    if (whole || (m + 1) % depth === 0) {
      const values = ritz(H, norm, least);
      const largest = values.reduce((most, { z }) => Math.max(most, Math.hypot(z.re, z.im)), 0);
      found = values.filter(({ isSettled }) => isSettled).map(({ z }) => z);
      if (
        whole ||
        values.every(
          ({ z, isSettled }) => isSettled || !asked(z) || Math.hypot(z.re, z.im) < ofLargest * largest,
        )
      ) {
        return found;
      }
    }
    for (let i = 0; i < size; i++) w[i]! /= norm;
    basis.push(w);
  }
  return found;
}

/** Takes out of w what it has of the basis, and adds that to `parts`. Four vectors at once, which are square to each other. */
function takeOut(basis: readonly Float64Array[], w: Float64Array, parts: number[]): void {
  const whole = basis.length - (basis.length % 4);
  for (let k = 0; k < whole; k += 4) {
    const [a, b, c, d] = [basis[k]!, basis[k + 1]!, basis[k + 2]!, basis[k + 3]!];
    let [sa, sb, sc, sd] = [0, 0, 0, 0];
    for (let i = 0; i < w.length; i++) {
      const x = w[i]!;
      sa += a[i]! * x;
      sb += b[i]! * x;
      sc += c[i]! * x;
      sd += d[i]! * x;
    }
    for (let i = 0; i < w.length; i++) w[i]! -= sa * a[i]! + sb * b[i]! + sc * c[i]! + sd * d[i]!;
    parts[k]! += sa;
    parts[k + 1]! += sb;
    parts[k + 2]! += sc;
    parts[k + 3]! += sd;
  }
  for (let k = whole; k < basis.length; k++) {
    const v = basis[k]!;
    let s = 0;
    for (let i = 0; i < w.length; i++) s += v[i]! * w[i]!;
    for (let i = 0; i < w.length; i++) w[i]! -= s * v[i]!;
    parts[k]! += s;
  }
}

/** Eigenvalues of the small matrix above `least`, the upper half plane, and whether each has settled. */
function ritz(
  H: readonly (readonly number[])[],
  beyond: number,
  least: number,
): { z: Complex; isSettled: boolean }[] {
  const m = H.length;
  const h = new Float64Array(m * m);
  H.forEach((column, j) => {
    for (let i = 0; i < Math.min(m, j + 2); i++) h[i * m + j] = column[i]!;
  });
  const small = new Hessenberg(h, m);
  return small
    .eigenvalues()
    .filter((z) => z.im >= 0 && Math.hypot(z.re, z.im) > least)
    .map((z) => ({ z, isSettled: beyond * lastOf(small, z) < settled * Math.hypot(z.re, z.im) }));
}

/** Magnitude of the last component of the unit eigenvector of the small matrix at z, in the Krylov basis. */
function lastOf(small: Hessenberg, z: Complex): number {
  const n = small.n;
  const side = { re: new Float64Array(n).fill(1), im: new Float64Array(n) };
  for (let pass = 0; pass < 2; pass++) {
    small.solve({ re: z.re * (1 + 1e-10) + 1e-14, im: z.im * (1 + 1e-10) }, [side]);
    let norm = 0;
    for (let k = 0; k < n; k++) norm += side.re[k]! * side.re[k]! + side.im[k]! * side.im[k]!;
    const f = 1 / Math.sqrt(norm);
    for (let k = 0; k < n; k++) {
      side.re[k]! *= f;
      side.im[k]! *= f;
    }
  }
  return Math.hypot(small.back(side.re)[n - 1]!, small.back(side.im)[n - 1]!);
}

/** A start that has something of every mode, the same on every machine. */
function start(size: number): Float64Array {
  let seed = 12345;
  const v = new Float64Array(size);
  let norm = 0;
  for (let i = 0; i < size; i++) {
    seed = (seed * 48271) % 2147483647;
    v[i] = seed / 2147483647 - 0.5;
    norm += v[i]! * v[i]!;
  }
  return v.map((x) => x / Math.sqrt(norm));
}
