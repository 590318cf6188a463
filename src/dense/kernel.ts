/**
 * What of dense matrices takes long. The build compiles these functions and all that they reach to WebAssembly
 * (`scripts/kernel/`); run as they stand they are the plain form, with the same bits.
 */
import type { Int } from '../base/int.ts';
import { eliminate } from './elimination.ts';
import { takeOut } from './krylov.ts';
import { addProduct, apply } from './products.ts';
import { iterate } from './qr-iteration.ts';
import { reduce } from './reduction.ts';

/** `addProduct`. */
export function product(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: Int,
  inner: Int,
  columns: Int,
): void {
  addProduct(c, a, b, rows, inner, columns);
}

/** `apply`. */
export function applied(y: Float64Array, a: Float64Array, x: Float64Array, rows: Int, columns: Int): void {
  apply(y, a, x, rows, columns);
}

/** `eliminate`. */
export function eliminated(a: Float64Array, b: Float64Array, n: Int, columns: Int): Int {
  return eliminate(a, b, n, columns);
}

/** `reduce`. */
export function reduced(
  h: Float64Array,
  q: Float64Array,
  keepsQ: boolean,
  n: Int,
  u: Float64Array,
  row: Float64Array,
): void {
  reduce(h, q, keepsQ, n, u, row);
}

/** `iterate`. */
export function iterated(h: Float64Array, n: Int, re: Float64Array, im: Float64Array): Int {
  return iterate(h, n, re, im);
}

/** `takeOut`. */
export function takenOut(
  basis: Float64Array,
  count: Int,
  size: Int,
  w: Float64Array,
  parts: Float64Array,
): void {
  takeOut(basis, count, size, w, parts);
}
