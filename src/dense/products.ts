/** Products of dense matrices, by flat rows. Text of the compiled form (`kernel.ts`); as it stands, the plain one. */
import type { Int } from '../base/int.ts';

/** c += a b, in the same way: two rows of c at once, or b is read twice as often. */
export function addProduct(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: Int,
  inner: Int,
  columns: Int,
): void {
  const pairs = rows - (rows % 2);
  for (let i = 0; i < pairs; i += 2) addToTwoRows(c, a, b, i, inner, columns);
  for (let i = pairs; i < rows; i++) addToRow(c, a, b, i, inner, columns);
}

/** Rows i and i + 1 of c += a b. Four rows of b at once: each row of c is then read and written a quarter as often. */
function addToTwoRows(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  i: Int,
  inner: Int,
  columns: Int,
): void {
  const upper = i * columns;
  const lower = upper + columns;
  const whole = inner - (inner % 4);
  for (let k = 0; k < whole; k += 4) {
    const u = i * inner + k;
    const l = u + inner;
    const u0 = a[u]!;
    const u1 = a[u + 1]!;
    const u2 = a[u + 2]!;
    const u3 = a[u + 3]!;
    const l0 = a[l]!;
    const l1 = a[l + 1]!;
    const l2 = a[l + 2]!;
    const l3 = a[l + 3]!;
    if (u0 === 0 && u1 === 0 && u2 === 0 && u3 === 0 && l0 === 0 && l1 === 0 && l2 === 0 && l3 === 0)
      continue;
    const at = k * columns;
    for (let j = 0; j < columns; j++) {
      const b0 = b[at + j]!;
      const b1 = b[at + columns + j]!;
      const b2 = b[at + 2 * columns + j]!;
      const b3 = b[at + 3 * columns + j]!;
      c[upper + j]! += u0 * b0 + u1 * b1 + u2 * b2 + u3 * b3;
      c[lower + j]! += l0 * b0 + l1 * b1 + l2 * b2 + l3 * b3;
    }
  }
  for (let k = whole; k < inner; k++) {
    addScaled(c, upper, a[i * inner + k]!, b, k * columns, columns);
    addScaled(c, lower, a[(i + 1) * inner + k]!, b, k * columns, columns);
  }
}

/** Row i of c += a b. */
function addToRow(c: Float64Array, a: Float64Array, b: Float64Array, i: Int, inner: Int, columns: Int): void {
  for (let k = 0; k < inner; k++) addScaled(c, i * columns, a[i * inner + k]!, b, k * columns, columns);
}

function addScaled(c: Float64Array, to: Int, x: number, b: Float64Array, from: Int, columns: Int): void {
  if (x !== 0) for (let j = 0; j < columns; j++) c[to + j]! += x * b[from + j]!;
}

/**
 * y = a x for a (rows × columns). Four rows at once: a sum waits for its last addition, four wait together. Each sum keeps
 * its own order.
 */
export function apply(y: Float64Array, a: Float64Array, x: Float64Array, rows: Int, columns: Int): void {
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
