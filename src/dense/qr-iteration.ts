/**
 * Eigenvalues of an upper Hessenberg matrix by the shifted QR iteration. Text of the compiled form (`kernel.ts`); as it
 * stands, the plain one.
 * Reference: R. S. Martin, G. Peters, J. H. Wilkinson, Numerische Mathematik 14, 1970.
 */
import type { Int } from '../base/int.ts';

/** Distance of 1 and the next number. */
const eps = 2.220446049250313e-16;

/**
 * The eigenvalues of h (n × n, overwritten) into re and im, in the order in which they part from it. −1, or the row at
 * which the iteration did not converge.
 */
export function iterate(h: Float64Array, n: Int, re: Float64Array, im: Float64Array): Int {
  let norm = 0;
  for (let i = 0; i < n; i++) for (let j = i > 0 ? i - 1 : 0; j < n; j++) norm += Math.abs(h[i * n + j]!);
  // Delays of k samples leave k eigenvalues at 0 that rounding spreads: among those the iteration wanders for long.
  const most: Int = 30 * (n > 10 ? n : 10);
  let found: Int = 0;
  let hi: Int = n - 1;
  let shift = 0;
  let turns: Int = 0;
  while (hi >= 0) {
    let low: Int = hi;
    for (; low > 0; low--) {
      let s = Math.abs(h[(low - 1) * n + low - 1]!) + Math.abs(h[low * n + low]!);
      if (s === 0) s = norm;
      if (Math.abs(h[low * n + low - 1]!) < eps * s) {
        h[low * n + low - 1] = 0;
        break;
      }
    }
    let x = h[hi * n + hi]!;
    if (low === hi) {
      re[found] = x + shift;
      im[found] = 0;
      found++;
      hi--;
      turns = 0;
      continue;
    }
    let y = h[(hi - 1) * n + hi - 1]!;
    let w = h[hi * n + hi - 1]! * h[(hi - 1) * n + hi]!;
    if (low === hi - 1) {
      const p = (y - x) / 2;
      const q = p * p + w;
      const z = Math.sqrt(Math.abs(q));
      x += shift;
      if (q >= 0) {
        const far = p + (p >= 0 ? z : -z);
        re[found] = x + far;
        im[found] = 0;
        re[found + 1] = far === 0 ? x : x - w / far;
        im[found + 1] = 0;
      } else {
        re[found] = x + p;
        im[found] = z;
        re[found + 1] = x + p;
        im[found + 1] = -z;
      }
      found += 2;
      hi -= 2;
      turns = 0;
      continue;
    }
    if (turns === most) return hi;
    if (turns > 0 && turns % 10 === 0) {
      // An exceptional shift breaks a cycle.
      shift += x;
      for (let i = 0; i <= hi; i++) h[i * n + i]! -= x;
      const s = Math.abs(h[hi * n + hi - 1]!) + Math.abs(h[(hi - 1) * n + hi - 2]!);
      x = 0.75 * s;
      y = x;
      w = -0.4375 * s * s;
    }
    turns++;
    let m: Int = hi - 2;
    let p = 0;
    let q = 0;
    let r = 0;
    for (; m >= low; m--) {
      const z = h[m * n + m]!;
      const rr = x - z;
      const ss = y - z;
      p = (rr * ss - w) / h[(m + 1) * n + m]! + h[m * n + m + 1]!;
      q = h[(m + 1) * n + m + 1]! - z - rr - ss;
      r = h[(m + 2) * n + m + 1]!;
      const s = Math.abs(p) + Math.abs(q) + Math.abs(r);
      p /= s;
      q /= s;
      r /= s;
      if (m === low) break;
      const u = Math.abs(h[m * n + m - 1]!) * (Math.abs(q) + Math.abs(r));
      const v =
        Math.abs(p) * (Math.abs(h[(m - 1) * n + m - 1]!) + Math.abs(z) + Math.abs(h[(m + 1) * n + m + 1]!));
      if (u <= eps * v) break;
    }
    for (let i = m + 2; i <= hi; i++) {
      h[i * n + i - 2] = 0;
      if (i > m + 2) h[i * n + i - 3] = 0;
    }
    for (let k = m; k < hi; k++) {
      const last = k === hi - 1;
      if (k > m) {
        p = h[k * n + k - 1]!;
        q = h[(k + 1) * n + k - 1]!;
        r = last ? 0 : h[(k + 2) * n + k - 1]!;
        x = Math.abs(p) + Math.abs(q) + Math.abs(r);
        if (x === 0) continue;
        p /= x;
        q /= x;
        r /= x;
      }
      const root = Math.sqrt(p * p + q * q + r * r);
      const s = p >= 0 ? root : -root;
      if (s === 0) continue;
      if (k > m) h[k * n + k - 1] = -s * x;
      else if (low !== m) h[k * n + k - 1] = -h[k * n + k - 1]!;
      p += s;
      x = p / s;
      y = q / s;
      const z = r / s;
      q /= p;
      r /= p;
      if (last) {
        turnTwoRows(h, k * n, n, k, hi + 1, q, x, y);
        turnTwoColumns(h, n, k, low, hi, q, x, y);
      } else {
        turnThreeRows(h, k * n, n, k, hi + 1, q, r, x, y, z);
        turnThreeColumns(h, n, k, low, hi < k + 3 ? hi : k + 3, q, r, x, y, z);
      }
    }
  }
  return -1;
}

/** The reflection of rows k, k + 1 and k + 2, from column `first` on; `at` is where row k begins. */
function turnThreeRows(
  h: Float64Array,
  at: Int,
  n: Int,
  first: Int,
  end: Int,
  q: number,
  r: number,
  x: number,
  y: number,
  z: number,
): void {
  const below: Int = at + n;
  const lowest: Int = below + n;
  for (let j = first; j < end; j++) {
    const t = h[at + j]! + q * h[below + j]! + r * h[lowest + j]!;
    h[lowest + j]! -= t * z;
    h[below + j]! -= t * y;
    h[at + j]! -= t * x;
  }
}

function turnTwoRows(
  h: Float64Array,
  at: Int,
  n: Int,
  first: Int,
  end: Int,
  q: number,
  x: number,
  y: number,
): void {
  const below: Int = at + n;
  for (let j = first; j < end; j++) {
    const t = h[at + j]! + q * h[below + j]!;
    h[below + j]! -= t * y;
    h[at + j]! -= t * x;
  }
}

/** The same of columns k, k + 1 and k + 2, rows `first` to `last`. */
function turnThreeColumns(
  h: Float64Array,
  n: Int,
  k: Int,
  first: Int,
  last: Int,
  q: number,
  r: number,
  x: number,
  y: number,
  z: number,
): void {
  for (let i = first; i <= last; i++) {
    const at: Int = i * n + k;
    const t = x * h[at]! + y * h[at + 1]! + z * h[at + 2]!;
    h[at + 2]! -= t * r;
    h[at + 1]! -= t * q;
    h[at]! -= t;
  }
}

function turnTwoColumns(
  h: Float64Array,
  n: Int,
  k: Int,
  first: Int,
  last: Int,
  q: number,
  x: number,
  y: number,
): void {
  for (let i = first; i <= last; i++) {
    const at: Int = i * n + k;
    const t = x * h[at]! + y * h[at + 1]!;
    h[at + 1]! -= t * q;
    h[at]! -= t;
  }
}
