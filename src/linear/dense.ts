/** Dense real matrices as flat rows: what the linear analysis needs of them, and no more. */

/** c = a b for a (rows × inner) and b (inner × columns). */
export function multiply(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  c.fill(0);
  addProduct(c, a, b, rows, inner, columns);
}

/** c += a b, in the same way. */
export function addProduct(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  const whole = inner - (inner % 4);
  for (let i = 0; i < rows; i++) {
    const out = c.subarray(i * columns, (i + 1) * columns);
    const from = i * inner;
    // Four rows of b at once: each row of c is then read and written a quarter as often.
    for (let k = 0; k < whole; k += 4) {
      const a0 = a[from + k]!;
      const a1 = a[from + k + 1]!;
      const a2 = a[from + k + 2]!;
      const a3 = a[from + k + 3]!;
      if (a0 === 0 && a1 === 0 && a2 === 0 && a3 === 0) continue;
      const b0 = k * columns;
      const b1 = b0 + columns;
      const b2 = b1 + columns;
      const b3 = b2 + columns;
      for (let j = 0; j < columns; j++) {
        out[j]! += a0 * b[b0 + j]! + a1 * b[b1 + j]! + a2 * b[b2 + j]! + a3 * b[b3 + j]!;
      }
    }
    for (let k = whole; k < inner; k++) {
      const x = a[from + k]!;
      if (x === 0) continue;
      const at = k * columns;
      for (let j = 0; j < columns; j++) out[j]! += x * b[at + j]!;
    }
  }
}

/**
 * y = a x for a (rows × columns). Four rows at once: a sum waits for its last addition, four wait together. Each sum keeps
 * its own order.
 */
export function apply(
  y: Float64Array,
  a: Float64Array,
  x: Float64Array,
  rows: number,
  columns: number,
): void {
  const whole = rows - (rows % 4);
  for (let i = 0; i < whole; i += 4) {
    const a0 = i * columns;
    const a1 = a0 + columns;
    const a2 = a1 + columns;
    const a3 = a2 + columns;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let j = 0; j < columns; j++) {
      const f = x[j]!;
      s0 += a[a0 + j]! * f;
      s1 += a[a1 + j]! * f;
      s2 += a[a2 + j]! * f;
      s3 += a[a3 + j]! * f;
    }
    y[i] = s0;
    y[i + 1] = s1;
    y[i + 2] = s2;
    y[i + 3] = s3;
  }
  for (let i = whole; i < rows; i++) {
    const at = i * columns;
    let s = 0;
    for (let j = 0; j < columns; j++) s += a[at + j]! * x[j]!;
    y[i] = s;
  }
}

/** Solves a x = b in place of b (n × columns); a is overwritten by its factors. Partial pivoting. */
export function solveInPlace(a: Float64Array, b: Float64Array, n: number, columns: number): void {
  for (let p = 0; p < n; p++) {
    let best = p;
    for (let r = p + 1; r < n; r++) if (Math.abs(a[r * n + p]!) > Math.abs(a[best * n + p]!)) best = r;
    if (a[best * n + p] === 0) throw new RangeError(`matrix of ${n} rows is singular at column ${p}`);
    if (best !== p) {
      swapRows(a, n, p, best);
      swapRows(b, columns, p, best);
    }
    const pivot = a[p * n + p]!;
    for (let r = p + 1; r < n; r++) {
      const f = a[r * n + p]! / pivot;
      if (f === 0) continue;
      for (let j = p + 1; j < n; j++) a[r * n + j]! -= f * a[p * n + j]!;
      for (let j = 0; j < columns; j++) b[r * columns + j]! -= f * b[p * columns + j]!;
    }
  }
  for (let p = n - 1; p >= 0; p--) {
    const pivot = a[p * n + p]!;
    for (let r = p + 1; r < n; r++) {
      const f = a[p * n + r]!;
      if (f === 0) continue;
      for (let j = 0; j < columns; j++) b[p * columns + j]! -= f * b[r * columns + j]!;
    }
    for (let j = 0; j < columns; j++) b[p * columns + j]! /= pivot;
  }
}

function swapRows(a: Float64Array, columns: number, p: number, r: number): void {
  for (let j = 0; j < columns; j++) {
    const keep = a[p * columns + j]!;
    a[p * columns + j] = a[r * columns + j]!;
    a[r * columns + j] = keep;
  }
}

/** The square part of `a` (n × n) at `places`, in their order. */
export function pick(a: Float64Array, n: number, places: readonly number[]): Float64Array {
  const m = places.length;
  const out = new Float64Array(m * m);
  for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) out[i * m + j] = a[places[i]! * n + places[j]!]!;
  return out;
}
