/**
 * Householder's reduction to Hessenberg form, A = Q H Qᵀ. Text of the compiled form (`kernel.ts`); as it stands, the
 * plain one.
 * Reference: J. H. Wilkinson, The Algebraic Eigenvalue Problem, 1965, chapter 6.
 */
import type { Int } from '../base/int.ts';

/** h (n × n) is reduced in place, q ← q Q where it is kept; u and row hold n numbers each for the way. */
export function reduce(
  h: Float64Array,
  q: Float64Array,
  keepsQ: boolean,
  n: Int,
  u: Float64Array,
  row: Float64Array,
): void {
  for (let k = 0; k < n - 2; k++) {
    let below = 0;
    for (let i = k + 2; i < n; i++) below += h[i * n + k]! * h[i * n + k]!;
    // Of this form already, as the small matrices of a Krylov basis are.
    if (below === 0) continue;
    const head = h[(k + 1) * n + k]!;
    const norm = Math.sqrt(head * head + below);
    const alpha = head > 0 ? -norm : norm;
    let square = 0;
    for (let i = k + 1; i < n; i++) {
      u[i] = i === k + 1 ? head - alpha : h[i * n + k]!;
      square += u[i]! * u[i]!;
    }
    if (square === 0) continue;
    fromLeft(h, n, u, row, 2 / square, k);
    fromRight(h, n, u, 2 / square, k);
    if (keepsQ) fromRight(q, n, u, 2 / square, k);
    for (let i = k + 2; i < n; i++) h[i * n + k] = 0;
  }
}

/** h ← (1 − f u uᵀ) h, u from its element k + 1 on, columns from k on. Two rows at once: each sum keeps its order. */
function fromLeft(h: Float64Array, n: Int, u: Float64Array, row: Float64Array, f: number, k: Int): void {
  for (let j = k; j < n; j++) row[j] = 0;
  const pairs: Int = n - ((n - k - 1) % 2);
  for (let i = k + 1; i < pairs; i += 2) {
    const a = u[i]!;
    const b = u[i + 1]!;
    if (a === 0 && b === 0) continue;
    const at: Int = i * n;
    for (let j = k; j < n; j++) row[j] = row[j]! + a * h[at + j]! + b * h[at + n + j]!;
  }
  for (let i = pairs; i < n; i++) {
    const a = u[i]!;
    const at: Int = i * n;
    for (let j = k; j < n; j++) row[j]! += a * h[at + j]!;
  }
  for (let r = k + 1; r < n; r++) {
    const g = f * u[r]!;
    const at: Int = r * n;
    if (g !== 0) for (let j = k; j < n; j++) h[at + j]! -= g * row[j]!;
  }
}

/** m ← m (1 − f u uᵀ), u from its element k + 1 on. Four rows at once: a sum waits for its last addition. */
function fromRight(m: Float64Array, n: Int, u: Float64Array, f: number, k: Int): void {
  const whole: Int = n - (n % 4);
  const first: Int = k + 1;
  for (let i = 0; i < whole; i += 4) {
    const a0: Int = i * n;
    const a1: Int = a0 + n;
    const a2: Int = a1 + n;
    const a3: Int = a2 + n;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let j = first; j < n; j++) {
      const x = u[j]!;
      s0 += m[a0 + j]! * x;
      s1 += m[a1 + j]! * x;
      s2 += m[a2 + j]! * x;
      s3 += m[a3 + j]! * x;
    }
    if (s0 === 0 && s1 === 0 && s2 === 0 && s3 === 0) continue;
    const t0 = f * s0;
    const t1 = f * s1;
    const t2 = f * s2;
    const t3 = f * s3;
    for (let j = first; j < n; j++) {
      const x = u[j]!;
      m[a0 + j]! -= t0 * x;
      m[a1 + j]! -= t1 * x;
      m[a2 + j]! -= t2 * x;
      m[a3 + j]! -= t3 * x;
    }
  }
  for (let i = whole; i < n; i++) {
    const at: Int = i * n;
    let s = 0;
    for (let j = first; j < n; j++) s += m[at + j]! * u[j]!;
    const t = f * s;
    if (t !== 0) for (let j = first; j < n; j++) m[at + j]! -= t * u[j]!;
  }
}
