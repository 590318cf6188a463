/**
 * Systems of a Hessenberg matrix less a shift, solved by rotations of its columns from the last on: every column is read
 * once and no matrix is written. Text of the compiled form (`kernel.ts`); as it stands, the plain one.
 * Reference: G. Henry, The shifted Hessenberg system solve computation, Cornell Theory Center, 1994 (from memory).
 */
import type { Int } from '../base/int.ts';

/**
 * Solves (s I − H) X = B in place for upper Hessenberg H (n × n), `columns` one after the other; real and imaginary parts
 * of so many right sides stand in re and im, n numbers each. `vr` to `turns` are for the way: n numbers each, `turns` 3 n.
 * Returns 1 where s is an eigenvalue, else 0.
 *
 * Columns k − 1 and k are turned by p = v/ρ and α = a/ρ, ρ² = a² + |v|², so that row k keeps ρ in column k alone: the k-th
 * turned unknown is b/ρ, and what it does to the rows above is taken from their right sides. The turns then give x.
 */
export function solveShifted(
  columns: Float64Array,
  n: Int,
  sr: number,
  si: number,
  re: Float64Array,
  im: Float64Array,
  sides: Int,
  vr: Float64Array,
  vi: Float64Array,
  rr: Float64Array,
  ri: Float64Array,
  turns: Float64Array,
): Int {
  const last = (n - 1) * n;
  for (let i = 0; i < n; i++) {
    vr[i] = -columns[last + i]!;
    vi[i] = 0;
  }
  vr[n - 1]! += sr;
  vi[n - 1]! += si;
  for (let k: Int = n - 1; k > 0; k--) {
    const at: Int = (k - 1) * n;
    const below = -columns[at + k]!;
    const size = Math.sqrt(below * below + vr[k]! * vr[k]! + vi[k]! * vi[k]!);
    if (size === 0) return 1;
    const a = below / size;
    const pr = vr[k]! / size;
    const pi = vi[k]! / size;
    turns[k] = a;
    turns[n + k] = pr;
    turns[2 * n + k] = pi;
    for (let i = 0; i < k; i++) {
      const c = -columns[at + i]!;
      const x = vr[i]!;
      const y = vi[i]!;
      rr[i] = a * c + (pr * x + pi * y);
      ri[i] = pr * y - pi * x;
      vr[i] = pr * c - a * x;
      vi[i] = pi * c - a * y;
    }
    // The shift stands on the diagonal of column k − 1.
    rr[k - 1]! += a * sr;
    ri[k - 1]! += a * si;
    vr[k - 1]! += pr * sr - pi * si;
    vi[k - 1]! += pr * si + pi * sr;
    for (let side = 0; side < sides; side++) {
      const to: Int = side * n;
      const yr = re[to + k]! / size;
      const yi = im[to + k]! / size;
      re[to + k] = yr;
      im[to + k] = yi;
      takeFrom(re, im, to, rr, ri, yr, yi, k);
    }
  }
  const d = vr[0]! * vr[0]! + vi[0]! * vi[0]!;
  if (d === 0) return 1;
  for (let side = 0; side < sides; side++) turnBack(re, im, side * n, n, turns, vr[0]! / d, -vi[0]! / d);
  return 0;
}

/** b − r y in the rows above k. */
function takeFrom(
  re: Float64Array,
  im: Float64Array,
  to: Int,
  rr: Float64Array,
  ri: Float64Array,
  yr: number,
  yi: number,
  k: Int,
): void {
  for (let i = 0; i < k; i++) {
    const r = rr[i]!;
    const j = ri[i]!;
    re[to + i]! -= r * yr - j * yi;
    im[to + i]! -= r * yi + j * yr;
  }
}

/** Turned unknowns of one side, the first still times what (fr, fi) is one over, to x. */
function turnBack(
  re: Float64Array,
  im: Float64Array,
  to: Int,
  n: Int,
  turns: Float64Array,
  fr: number,
  fi: number,
): void {
  let zr = re[to]! * fr - im[to]! * fi;
  let zi = re[to]! * fi + im[to]! * fr;
  for (let k = 1; k < n; k++) {
    const a = turns[k]!;
    const pr = turns[n + k]!;
    const pi = turns[2 * n + k]!;
    const yr = re[to + k]!;
    const yi = im[to + k]!;
    re[to + k - 1] = pr * zr - pi * zi + a * yr;
    im[to + k - 1] = pr * zi + pi * zr + a * yi;
    const next = pr * yr + pi * yi - a * zr;
    zi = pr * yi - pi * yr - a * zi;
    zr = next;
  }
  re[to + n - 1] = zr;
  im[to + n - 1] = zi;
}
