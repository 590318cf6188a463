/**
 * Eigenvalues of a small complex matrix: Hessenberg form by rotations, then the shifted QR iteration with Wilkinson's
 * shift, one value split off at a time.
 * Reference: G. H. Golub, C. F. Van Loan, Matrix Computations, 3rd ed. 1996, 7.4 and 7.5.
 */
import { add, type Complex, conjugate, magnitude, scaled, squareRoot, subtract, times } from './complex.ts';

type Matrix = Complex[][];

/** What is below the diagonal counts as nothing under this share of its neighbours on it. */
const nothing = 1e-15;

/** Turns without a split after which a shift from nowhere breaks the circle, and after which it is given up. */
const circling = 10;
const most = 300;

const zero: Complex = { re: 0, im: 0 };

/** All of them, in no order; `a` is n × n and stays as it is. Throws RangeError where the iteration does not end. */
export function eigenvaluesOf(a: readonly (readonly Complex[])[]): Complex[] {
  const h = a.map((row) => [...row]);
  reduce(h);
  const values: Complex[] = [];
  let turns = 0;
  for (let last = h.length - 1; last >= 0; ) {
    const first = startOf(h, last);
    if (first === last) {
      values.push(h[last]![last]!);
      last--;
      turns = 0;
      continue;
    }
    if (++turns > most) throw new RangeError(`eigenvalues of ${h.length} rows: no end after ${most} turns`);
    const shift =
      turns % circling === 0
        ? { re: magnitude(h[last]![last - 1]!), im: magnitude(h[first + 1]![first]!) }
        : wilkinson(h, last);
    turn(h, first, last, shift);
  }
  return values;
}

/** First row of the block that ends at `last` and has not split. */
function startOf(h: Matrix, last: number): number {
  for (let k = last; k > 0; k--) {
    const beside = magnitude(h[k]![k]!) + magnitude(h[k - 1]![k - 1]!);
    if (magnitude(h[k]![k - 1]!) > nothing * beside) continue;
    h[k]![k - 1] = zero;
    return k;
  }
  return 0;
}

/** Zeros below the first subdiagonal. */
function reduce(h: Matrix): void {
  const n = h.length;
  for (let p = 0; p < n - 2; p++) {
    for (let i = n - 1; i > p + 1; i--) {
      const rotation = rotationOf(h[i - 1]![p]!, h[i]![p]!);
      if (rotation === null) continue;
      rotateRows(h, i - 1, rotation, p, n);
      rotateColumns(h, i - 1, rotation, 0, n);
      h[i]![p] = zero;
    }
  }
}

/** One step H − μ I = Q R, H ← R Q + μ I on the rows `first` to `last`. */
function turn(h: Matrix, first: number, last: number, shift: Complex): void {
  for (let k = first; k <= last; k++) h[k]![k] = subtract(h[k]![k]!, shift);
  const rotations: (Rotation | null)[] = [];
  for (let k = first; k < last; k++) {
    const rotation = rotationOf(h[k]![k]!, h[k + 1]![k]!);
    rotations.push(rotation);
    if (rotation !== null) rotateRows(h, k, rotation, k, last + 1);
  }
  rotations.forEach((rotation, j) => {
    const k = first + j;
    if (rotation !== null) rotateColumns(h, k, rotation, first, Math.min(last, k + 2) + 1);
  });
  for (let k = first; k <= last; k++) h[k]![k] = add(h[k]![k]!, shift);
}

/** Eigenvalue of the last two rows that lies nearer to the last element. */
function wilkinson(h: Matrix, last: number): Complex {
  const [a, b] = [h[last - 1]![last - 1]!, h[last - 1]![last]!];
  const [c, d] = [h[last]![last - 1]!, h[last]![last]!];
  const half = scaled(subtract(a, d), 0.5);
  const root = squareRoot(add(times(half, half), times(b, c)));
  const middle = scaled(add(a, d), 0.5);
  const [one, other] = [add(middle, root), subtract(middle, root)];
  return magnitude(subtract(one, d)) < magnitude(subtract(other, d)) ? one : other;
}

/** (c, s; −s̄, c) with c real, which takes (x, y) to (r, 0). */
interface Rotation {
  readonly c: number;
  readonly s: Complex;
}

function rotationOf(x: Complex, y: Complex): Rotation | null {
  const [p, q] = [magnitude(x), magnitude(y)];
  if (q === 0) return null;
  const r = Math.sqrt(p * p + q * q);
  if (p === 0) return { c: 0, s: scaled(conjugate(y), 1 / q) };
  return { c: p / r, s: scaled(times(scaled(x, 1 / p), conjugate(y)), 1 / r) };
}

function rotateRows(h: Matrix, k: number, { c, s }: Rotation, from: number, to: number): void {
  const [upper, lower] = [h[k]!, h[k + 1]!];
  for (let j = from; j < to; j++) {
    const [x, y] = [upper[j]!, lower[j]!];
    upper[j] = add(scaled(x, c), times(s, y));
    lower[j] = subtract(scaled(y, c), times(conjugate(s), x));
  }
}

/** The columns by the inverse of the rotation. */
function rotateColumns(h: Matrix, k: number, { c, s }: Rotation, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const row = h[i]!;
    const [x, y] = [row[k]!, row[k + 1]!];
    row[k] = add(scaled(x, c), times(conjugate(s), y));
    row[k + 1] = subtract(scaled(y, c), times(s, x));
  }
}
