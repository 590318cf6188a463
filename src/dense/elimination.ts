/** Gauss with partial pivoting. Text of the compiled form (`kernel.ts`); as it stands, the plain one. */
import type { Int } from '../base/int.ts';

/**
 * Solves a x = b in place of b (n × columns); a is overwritten by its factors. The column at which a is singular, or −1.
 */
export function eliminate(a: Float64Array, b: Float64Array, n: Int, columns: Int): Int {
  for (let p = 0; p < n; p++) {
    let best: Int = p;
    for (let r = p + 1; r < n; r++) if (Math.abs(a[r * n + p]!) > Math.abs(a[best * n + p]!)) best = r;
    if (a[best * n + p]! === 0) return p;
    if (best !== p) {
      swapRows(a, n, p, best);
      swapRows(b, columns, p, best);
    }
    const pivot = a[p * n + p]!;
    for (let r = p + 1; r < n; r++) {
      const f = a[r * n + p]! / pivot;
      if (f === 0) continue;
      takeRow(a, r * n, p * n, f, p + 1, n);
      takeRow(b, r * columns, p * columns, f, 0, columns);
    }
  }
  for (let p = n - 1; p >= 0; p--) {
    const pivot = a[p * n + p]!;
    for (let r = p + 1; r < n; r++) {
      const f = a[p * n + r]!;
      if (f !== 0) takeRow(b, p * columns, r * columns, f, 0, columns);
    }
    const at: Int = p * columns;
    for (let j = 0; j < columns; j++) b[at + j]! /= pivot;
  }
  return -1;
}

/** One row less f times another, from a column on. */
function takeRow(m: Float64Array, row: Int, other: Int, f: number, first: Int, end: Int): void {
  for (let j = first; j < end; j++) m[row + j]! -= f * m[other + j]!;
}

function swapRows(a: Float64Array, columns: Int, p: Int, r: Int): void {
  const one: Int = p * columns;
  const other: Int = r * columns;
  for (let j = 0; j < columns; j++) {
    const keep = a[one + j]!;
    a[one + j] = a[other + j]!;
    a[other + j] = keep;
  }
}
