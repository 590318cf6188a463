/** Columns of complex numbers, real and imaginary parts apart. */
import type { ComplexColumn } from '../dense/hessenberg-form.ts';
import type { Complex } from './complex.ts';

export function along(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

export function zeros(n: number): ComplexColumn {
  return { re: new Float64Array(n), im: new Float64Array(n) };
}

/** into += column · weight, the column real. */
export function addScaled(into: ComplexColumn, column: Float64Array, weight: Complex): void {
  for (let i = 0; i < column.length; i++) {
    into.re[i]! += column[i]! * weight.re;
    into.im[i]! += column[i]! * weight.im;
  }
}

/** into += column · weight. */
export function addTimes(into: ComplexColumn, column: ComplexColumn, weight: Complex): void {
  const { re, im } = weight;
  if (re === 0 && im === 0) return;
  for (let i = 0; i < column.re.length; i++) {
    const a = column.re[i]!;
    const b = column.im[i]!;
    into.re[i]! += a * re - b * im;
    into.im[i]! += a * im + b * re;
  }
}

export function sumOf(a: ComplexColumn, b: ComplexColumn): ComplexColumn {
  return { re: a.re.map((v, k) => v + b.re[k]!), im: a.im.map((v, k) => v + b.im[k]!) };
}
