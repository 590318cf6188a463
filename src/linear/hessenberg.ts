/**
 * Reduction to Hessenberg form, A = Q H Qᵀ, made once; eigenvalues and solutions of (s I − A) x = b then cost
 * the square of the size only.
 * References: J. H. Wilkinson, The Algebraic Eigenvalue Problem, 1965, chapter 6 (Householder's reduction);
 * R. S. Martin, G. Peters, J. H. Wilkinson, Numerische Mathematik 14, 1970 (the shifted QR iteration on H).
 */
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
    if (vectors) for (let k = 0; k < n; k++) this.q[k * n + k] = 1;
    this.re = new Float64Array(kept);
    this.im = new Float64Array(kept);
    this.reduce();
  }

  private reduce(): void {
    const { n, h, q } = this;
    const u = new Float64Array(n);
    const row = new Float64Array(n);
    for (let k = 0; k < n - 2; k++) {
      let below = 0;
      for (let i = k + 2; i < n; i++) below += h[i * n + k]! * h[i * n + k]!;
      // Of this form already, as the small matrices of a Krylov basis are.
      if (below === 0) continue;
      const norm = Math.sqrt(h[(k + 1) * n + k]! * h[(k + 1) * n + k]! + below);
      const head = h[(k + 1) * n + k]!;
      const alpha = head > 0 ? -norm : norm;
      let square = 0;
      for (let i = k + 1; i < n; i++) {
        u[i] = i === k + 1 ? head - alpha : h[i * n + k]!;
        square += u[i]! * u[i]!;
      }
      if (square === 0) continue;
      this.fromLeft(u, row, 2 / square, k);
      for (const m of q.length > 0 ? [h, q] : [h]) fromRight(m, n, u, 2 / square, k);
      for (let i = k + 2; i < n; i++) h[i * n + k] = 0;
    }
  }

  /** h ← (1 − f u uᵀ) h, u from its element k + 1 on, columns from k on. Two rows at once: each sum keeps its order. */
  private fromLeft(u: Float64Array, row: Float64Array, f: number, k: number): void {
    const { n, h } = this;
    row.fill(0);
    let i = k + 1;
    for (; i + 1 < n; i += 2) {
      const [a, b] = [u[i]!, u[i + 1]!];
      if (a === 0 && b === 0) continue;
      const at = i * n;
      for (let j = k; j < n; j++) row[j] = row[j]! + a * h[at + j]! + b * h[at + n + j]!;
    }
    if (i < n) for (let j = k; j < n; j++) row[j]! += u[i]! * h[i * n + j]!;
    for (let r = k + 1; r < n; r++) {
      const g = f * u[r]!;
      if (g !== 0) for (let j = k; j < n; j++) h[r * n + j]! -= g * row[j]!;
    }
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
    return hessenbergEigenvalues(this.h.slice(), this.n);
  }
}

/** m ← m (1 − f u uᵀ), u from its element k + 1 on. Four rows at once: a sum waits for its last addition. */
function fromRight(m: Float64Array, n: number, u: Float64Array, f: number, k: number): void {
  const whole = n - (n % 4);
  for (let i = 0; i < whole; i += 4) {
    const a0 = i * n;
    const a1 = a0 + n;
    const a2 = a1 + n;
    const a3 = a2 + n;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let j = k + 1; j < n; j++) {
      const x = u[j]!;
      s0 += m[a0 + j]! * x;
      s1 += m[a1 + j]! * x;
      s2 += m[a2 + j]! * x;
      s3 += m[a3 + j]! * x;
    }
    if (s0 === 0 && s1 === 0 && s2 === 0 && s3 === 0) continue;
    s0 *= f;
    s1 *= f;
    s2 *= f;
    s3 *= f;
    for (let j = k + 1; j < n; j++) {
      const x = u[j]!;
      m[a0 + j]! -= s0 * x;
      m[a1 + j]! -= s1 * x;
      m[a2 + j]! -= s2 * x;
      m[a3 + j]! -= s3 * x;
    }
  }
  for (let i = whole; i < n; i++) {
    let s = 0;
    for (let j = k + 1; j < n; j++) s += m[i * n + j]! * u[j]!;
    s *= f;
    if (s !== 0) for (let j = k + 1; j < n; j++) m[i * n + j]! -= s * u[j]!;
  }
}

function size2(a: number, b: number): number {
  return a * a + b * b;
}

/** Eigenvalues of an upper Hessenberg matrix, which is overwritten. */
export function hessenbergEigenvalues(h: Float64Array, n: number): Complex[] {
  const out: Complex[] = [];
  const eps = 2.220446049250313e-16;
  let norm = 0;
  for (let i = 0; i < n; i++) for (let j = Math.max(i - 1, 0); j < n; j++) norm += Math.abs(h[i * n + j]!);
  let hi = n - 1;
  let shift = 0;
  let turns = 0;
  // Delays of k samples leave k eigenvalues at 0 that rounding spreads: among those the iteration wanders for long.
  const most = 30 * Math.max(10, n);
  while (hi >= 0) {
    let low = hi;
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
      out.push({ re: x + shift, im: 0 });
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
        out.push({ re: x + far, im: 0 }, { re: far === 0 ? x : x - w / far, im: 0 });
      } else out.push({ re: x + p, im: z }, { re: x + p, im: -z });
      hi -= 2;
      turns = 0;
      continue;
    }
    if (turns === most) throw new RangeError(`the QR iteration did not converge at ${hi} of ${n}`);
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
    let m = hi - 2;
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
      for (let j = k; j <= hi; j++) {
        let t = h[k * n + j]! + q * h[(k + 1) * n + j]!;
        if (!last) {
          t += r * h[(k + 2) * n + j]!;
          h[(k + 2) * n + j]! -= t * z;
        }
        h[(k + 1) * n + j]! -= t * y;
        h[k * n + j]! -= t * x;
      }
      const end = hi < k + 3 ? hi : k + 3;
      for (let i = low; i <= end; i++) {
        let t = x * h[i * n + k]! + y * h[i * n + k + 1]!;
        if (!last) {
          t += z * h[i * n + k + 2]!;
          h[i * n + k + 2]! -= t * r;
        }
        h[i * n + k + 1]! -= t * q;
        h[i * n + k]! -= t;
      }
    }
  }
  return out;
}
