import { EigenvalueDecomposition, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { expect, it } from 'vitest';
import type { Complex } from '../../src/linear/complex.ts';
import { eigenvaluesOf } from '../../src/linear/complex-eigenvalues.ts';
import { type ComplexMatrix, largestSingularValue } from '../../src/linear/complex-matrix.ts';

/** The same numbers in every run: a multiplicative sequence, 48271 modulo 2³¹ − 1. */
let state = 7;
const next = (): number => {
  state = (48271 * state) % 2147483647;
  return (20 * state) / 2147483647 - 10;
};
const matrices: readonly ComplexMatrix[] = [1, 2, 3, 5, 8, 8, 13, 21].map((n) =>
  Array.from({ length: n }, () => Array.from({ length: n }, () => ({ re: next(), im: next() }))),
);

/** (Re −Im; Im Re): its eigenvalues are those of A and their conjugates, its singular values those of A twice. */
function asReal(A: ComplexMatrix): Matrix {
  const left = A.map((row) => [...row.map(({ re }) => re), ...row.map(({ im }) => -im)]);
  const right = A.map((row) => [...row.map(({ im }) => im), ...row.map(({ re }) => re)]);
  return new Matrix([...left, ...right]);
}

const ordered = (values: readonly Complex[]): string[] =>
  values
    .map(({ re, im }) => `${re.toFixed(6)} ${Math.abs(im).toFixed(6)}`.replaceAll('-0.000000', '0.000000'))
    .sort();

/** Against another implementation: ml-matrix, on the real matrix of twice the size. */
it.each(matrices.map((A) => ({ A, n: A.length })))(
  'eigenvalues of $n complex rows are those of the real form',
  ({ A }) => {
    const values = eigenvaluesOf(A);
    const real = new EigenvalueDecomposition(asReal(A));
    const all = real.realEigenvalues.map((re, k) => ({ re, im: real.imaginaryEigenvalues[k]! }));
    expect(ordered(values.flatMap((value) => [value, value]))).toEqual(ordered(all));
    // Which of each pair it is, the trace says.
    const trace = A.reduce((sum, row, k) => sum + row[k]!.im, 0);
    expect(values.reduce((sum, { im }) => sum + im, 0)).toBeCloseTo(trace, 8);
    expect(largestSingularValue(A)).toBeCloseTo(new SingularValueDecomposition(asReal(A)).norm2, 8);
  },
);

it('a chain of ones, a matrix of zeros and a turn of three are no trap', () => {
  const real = (rows: number[][]): ComplexMatrix => rows.map((row) => row.map((re) => ({ re, im: 0 })));
  expect(
    eigenvaluesOf(
      real([
        [0, 0],
        [0, 0],
      ]),
    ),
  ).toEqual([
    { re: 0, im: 0 },
    { re: 0, im: 0 },
  ]);
  expect(
    ordered(
      eigenvaluesOf(
        real([
          [2, 1, 0],
          [0, 2, 1],
          [0, 0, 2],
        ]),
      ),
    ),
  ).toEqual(new Array(3).fill('2.000000 0.000000'));
  // The cyclic turn, on which the unshifted iteration stands still: cube roots of 1.
  expect(
    ordered(
      eigenvaluesOf(
        real([
          [0, 0, 1],
          [1, 0, 0],
          [0, 1, 0],
        ]),
      ),
    ),
  ).toEqual(['-0.500000 0.866025', '-0.500000 0.866025', '1.000000 0.000000']);
});
