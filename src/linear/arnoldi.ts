/**
 * The largest eigenvalues of a map that is known only by what it does to vectors: a Krylov basis, and the
 * eigenvalues of the small Hessenberg matrix the map has in it.
 * Reference: W. E. Arnoldi, Quarterly of Applied Mathematics 9, 1951.
 */
import { type HeldBasis, holdingBasis } from '../dense/held-basis.ts';
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
  /** Those that are asked for; all where it is left out. */
  readonly asked?: (z: Complex) => boolean;
}

/**
 * Eigenvalues of `carry` (in place, over vectors of `size`) that are asked for, above `least` in magnitude and settled, from
 * a basis of `depth` vectors, or as many more as those near the largest value need, up to five times that. Of values that
 * coincide one is found.
 */
export function largestEigenvalues(
  carry: (z: Float64Array) => void,
  size: number,
  { depth, least, asked = () => true }: Basis,
): Complex[] {
  const most = Math.min(5 * depth, size);
  return holdingBasis(most, size, (basis) => search(basis, carry, size, { depth, least, asked, most }));
}

interface Search extends Required<Basis> {
  /** Vectors that the basis has room for. */
  readonly most: number;
}

/** The same in an empty basis. */
function search(
  basis: HeldBasis,
  carry: (z: Float64Array) => void,
  size: number,
  { depth, least, asked, most }: Search,
): Complex[] {
  const w = start(size);
  const H: Float64Array[] = [];
  for (let m = 0; ; m++) {
    basis.add(w);
    carry(w);
    const column = new Float64Array(m + 2);
    // Twice, or rounding lets vectors back in that were taken out.
    for (let pass = 0; pass < 2; pass++) basis.takeOut(w, column.subarray(0, m + 1));
    let norm = 0;
    for (let i = 0; i < size; i++) norm += w[i]! * w[i]!;
    norm = Math.sqrt(norm);
    column[m + 1] = norm;
    H.push(column);
    const whole = norm < 1e-10 || m + 1 === most;
    if (whole || (m + 1) % depth === 0) {
      const { largest, values } = ritz(H, norm, least, asked);
      const isEnough = values.every(
        ({ z, isSettled }) => isSettled || Math.hypot(z.re, z.im) < ofLargest * largest,
      );
      if (whole || isEnough) return values.filter(({ isSettled }) => isSettled).map(({ z }) => z);
    }
    for (let i = 0; i < size; i++) w[i]! /= norm;
  }
}

/** Eigenvalues of the small matrix above `least`, the upper half plane: the largest, and whether those asked for have settled. */
function ritz(
  H: readonly Float64Array[],
  beyond: number,
  least: number,
  asked: (z: Complex) => boolean,
): { largest: number; values: { z: Complex; isSettled: boolean }[] } {
  const m = H.length;
  const h = new Float64Array(m * m);
  for (let j = 0; j < m; j++) {
    const column = H[j]!;
    for (let i = 0; i < Math.min(m, j + 2); i++) h[i * m + j] = column[i]!;
  }
  const small = new Hessenberg(h, m, false);
  const above = small.eigenvalues().filter((z) => z.im >= 0 && Math.hypot(z.re, z.im) > least);
  return {
    largest: above.reduce((top, z) => Math.max(top, Math.hypot(z.re, z.im)), 0),
    values: above
      .filter(asked)
      .map((z) => ({ z, isSettled: beyond * lastOf(small, z) < settled * Math.hypot(z.re, z.im) })),
  };
}

/**
 * Magnitude of the last component of the unit eigenvector of the small matrix at z, in the Krylov basis: what is of Hessenberg
 * form is its own.
 */
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
  return Math.hypot(side.re[n - 1]!, side.im[n - 1]!);
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
  const length = Math.sqrt(norm);
  for (let i = 0; i < size; i++) v[i]! /= length;
  return v;
}
