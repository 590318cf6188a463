/**
 * The compiled loops over dense matrices against the same loops as they stand, bit for bit, and both against ml-matrix, a
 * general-purpose library. Sizes around the pairs and fours in which the loops go.
 */
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { describe, expect, it, vi } from 'vitest';
import { compiled } from '../../src/dense/compiled.ts';
import { addProduct, multiply, solveInPlace } from '../../src/dense/dense.ts';
import * as elimination from '../../src/dense/elimination.ts';
import { holdingBasis } from '../../src/dense/held-basis.ts';
import { holdingMaps } from '../../src/dense/held-maps.ts';
import { holdingSteps } from '../../src/dense/held-steps.ts';
import { hessenbergValues, solveShiftedHessenberg, toHessenberg } from '../../src/dense/hessenberg-form.ts';
import { takeOut } from '../../src/dense/krylov.ts';
import * as products from '../../src/dense/products.ts';
import * as iteration from '../../src/dense/qr-iteration.ts';
import * as reduction from '../../src/dense/reduction.ts';
import { solveShifted } from '../../src/dense/shifted.ts';
import { takeSteps } from '../../src/dense/stepping.ts';
import { stepFactors } from '../../src/linear/step-factors.ts';

const sizes = [8, 12, 13, 14, 15, 31, 64, 97];

/** Numbers from −1 to 1 with some noughts, the same for the same seed. */
function drawn(count: number, seed: number): Float64Array {
  let state = seed * 7919 + 1;
  return Float64Array.from({ length: count }, () => {
    state = (state * 48271) % 2147483647;
    return state % 11 === 0 ? 0 : (2 * state) / 2147483647 - 1;
  });
}

const rows = (a: Float64Array, n: number): number[][] =>
  Array.from({ length: n }, (_, i) => [...a.subarray(i * n, (i + 1) * n)]);

const furthest = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Array.from(a).reduce((most, x, k) => Math.max(most, Math.abs(x - b[k]!)), 0);

describe.each(sizes)('of %i rows', (n) => {
  const a = drawn(n * n, 1);
  const b = drawn(n * (n + 3), 2);

  it('a product', () => {
    const [plain, fast] = [drawn(n * (n + 3), 3), drawn(n * (n + 3), 3)];
    products.addProduct(plain, a, b, n, n, n + 3);
    addProduct(fast, a, b, n, n, n + 3);
    expect(fast).toEqual(plain);
    const c = new Float64Array(n * n);
    multiply(c, a, a, n, n, n);
    expect(furthest(c, new Matrix(rows(a, n)).mmul(new Matrix(rows(a, n))).to1DArray())).toBeLessThan(1e-12);
  });

  it('a shifted system of a Hessenberg matrix', () => {
    const s = { re: 0.3, im: -1.7 };
    const h = Float64Array.from(a, (x, k) => (Math.floor(k / n) > (k % n) + 1 ? 0 : x));
    const columns = Float64Array.from(h, (_, k) => h[(k % n) * n + Math.floor(k / n)]!);
    const sides = [5, 6, 7].map((seed) => ({ re: drawn(n, seed), im: drawn(n, seed + 10) }));
    const [re, im] = [sides.flatMap((one) => [...one.re]), sides.flatMap((one) => [...one.im])].map((all) =>
      Float64Array.from(all),
    ) as [Float64Array, Float64Array];
    const way = [n, n, n, n, 3 * n].map((count) => new Float64Array(count)) as [
      ...[Float64Array, Float64Array, Float64Array, Float64Array, Float64Array],
    ];
    expect(solveShifted(columns, n, s.re, s.im, re, im, 3, ...way)).toBe(0);
    const found = sides.map((one) => ({ re: one.re.slice(), im: one.im.slice() }));
    solveShiftedHessenberg(columns, n, s, found);
    expect(found.flatMap((one) => [...one.re])).toEqual([...re]);
    expect(found.flatMap((one) => [...one.im])).toEqual([...im]);
    // The same as a real system of twice the size, by another library.
    const real = Matrix.zeros(2 * n, 2 * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const x = (i === j ? s.re : 0) - h[i * n + j]!;
        real.set(i, j, x).set(n + i, n + j, x);
      }
      real.set(i, n + i, -s.im).set(n + i, i, s.im);
    }
    sides.forEach((side, k) => {
      const other = solve(real, Matrix.columnVector([...side.re, ...side.im])).to1DArray();
      const most = Math.max(...other.map(Math.abs));
      expect(furthest([...found[k]!.re, ...found[k]!.im], other)).toBeLessThan(1e-9 * most);
    });
  });

  it('a solution', () => {
    const [plain, fast] = [b.slice(), b.slice()];
    expect(elimination.eliminate(a.slice(), plain, n, n + 3)).toBe(-1);
    solveInPlace(a.slice(), fast, n, n + 3);
    expect(fast).toEqual(plain);
    const square = drawn(n * n, 4);
    const x = square.slice();
    solveInPlace(a.slice(), x, n, n);
    const other = solve(new Matrix(rows(a, n)), new Matrix(rows(square, n))).to1DArray();
    expect(furthest(x, other)).toBeLessThan(1e-9 * Math.max(...other.map(Math.abs)));
  });

  it('eigenvalues', () => {
    const [plain, fast] = [a.slice(), a.slice()];
    const [plainQ, fastQ] = [new Float64Array(n * n), new Float64Array(n * n)];
    for (let k = 0; k < n; k++) plainQ[k * n + k] = 1;
    reduction.reduce(plain, plainQ, true, n, new Float64Array(n), new Float64Array(n));
    toHessenberg(fast, fastQ, n);
    expect([fast, fastQ]).toEqual([plain, plainQ]);
    const alone = a.slice();
    toHessenberg(alone, new Float64Array(0), n);
    expect(alone).toEqual(plain);
    const [re, im, fastRe, fastIm] = [1, 2, 3, 4].map(() => new Float64Array(n)) as [
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    expect(iteration.iterate(plain, n, re, im)).toBe(-1);
    hessenbergValues(fast, n, fastRe, fastIm);
    expect([fastRe, fastIm]).toEqual([re, im]);
    const other = new EigenvalueDecomposition(new Matrix(rows(a, n)), { assumeSymmetric: false });
    const far = [...re].map((x, k) =>
      Math.min(
        ...other.realEigenvalues.map((y, m) => Math.hypot(x - y, im[k]! - other.imaginaryEigenvalues[m]!)),
      ),
    );
    expect(Math.max(...far)).toBeLessThan(1e-9);
  });

  it('maps that are held, and vectors taken out of another', () => {
    const [plain, fast] = [new Float64Array(n), new Float64Array(n)];
    const x = drawn(n, 5);
    products.apply(plain, a, x, n, n);
    const other = drawn(n * n, 6);
    holdingMaps(new Set([other, a]), (apply) => apply(fast, a, x, n, n));
    expect(fast).toEqual(plain);
    const [w, v] = [x.slice(), x.slice()];
    const [parts, sums] = [drawn(5, 7), drawn(5, 7)];
    takeOut(a, 5, n, w, parts);
    holdingBasis(6, n, (basis) => {
      for (let k = 0; k < 5; k++) basis.add(a.subarray(k * n, (k + 1) * n));
      basis.takeOut(v, sums);
    });
    expect([v, sums]).toEqual([w, parts]);
  });

  it('steps through factors', () => {
    // The diagonal is nought, so that another row must be divided by.
    const q = 0.25;
    const A = Float64Array.from(a, (x, k) => (k % (n + 1) === 0 ? 1 / q : x));
    const by = stepFactors(A, n, q);
    const { rows: order, columns, ends, sources, factors, twice } = by;
    const [plain, fast, push] = [drawn(n, 5), drawn(n, 5), drawn(n, 6)];
    takeSteps(plain, push, new Float64Array(n), n, 3, order, columns, ends, sources, factors, twice);
    holdingSteps(new Set([stepFactors(A, n, 0.1), by]), (step) => step(fast, push, by, 3));
    expect(fast).toEqual(plain);
    expect(order).not.toEqual(columns);
    const [one, before] = [drawn(n, 5), drawn(n, 5)];
    holdingSteps(new Set([by]), (step) => step(one, push, by, 1));
    // (I − qA)(z1 + z0)/2 = z0 + push.
    const left = Float64Array.from(one, (x, i) => {
      let sum = (x + before[i]!) / 2;
      for (let j = 0; j < n; j++) sum -= (q * A[i * n + j]! * (one[j]! + before[j]!)) / 2;
      return sum - before[i]! - push[i]!;
    });
    expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-9);
  });
});

it('runs compiled, and not the loops as they stand', () => {
  expect(compiled()).not.toBe(null);
  const plainly = vi.spyOn(products, 'addProduct');
  const c = new Float64Array(400);
  addProduct(c, drawn(400, 1), drawn(400, 2), 20, 20, 20);
  expect(plainly).not.toHaveBeenCalled();
});

it('a singular matrix is told with its column, and nothing is left in the memory', () => {
  for (const n of [3, 20]) {
    const a = drawn(n * n, 1);
    for (let i = 0; i < n; i++) a[i * n + 2] = 0;
    expect(() => solveInPlace(a, drawn(n * n, 2), n, n)).toThrow(
      `matrix of ${n} rows is singular at column 2`,
    );
  }
  const from = (): number => compiled()!.holding(1, (address) => address);
  const before = from();
  expect(() =>
    holdingMaps(new Set([drawn(9, 1)]), () => {
      throw new Error('on the way');
    }),
  ).toThrow('on the way');
  expect(from()).toBe(before);
});
