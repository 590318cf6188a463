/**
 * Discrete Fourier transform of any length, so that whole periods fall on bins whatever their length.
 * Powers of two go to fft.js at once; other lengths through Bluestein's chirp:
 * 2jk = j² + k² − (k−j)² turns the sum into a convolution, done by transforms of a power of two ≥ 2N−1.
 * Source: L. I. Bluestein, IEEE Trans. Audio Electroacoust. 18(4), 1970.
 */

import { cosine, sine } from '../../base/sine.ts';
import { planOf } from './plans.ts';

/** Complex numbers side by side: re, im, re, im … */
export type ComplexPairs = Float64Array;

function powerOfTwoFrom(least: number): number {
  let size = 2;
  while (size < least) size *= 2;
  return size;
}

/** X[k] = Σ x[j] e^(−2πi jk/N) of `count` complex values. */
export function transform(x: ComplexPairs): ComplexPairs {
  const X = new Float64Array(x.length);
  transformInto(X, x);
  return X;
}

/** The same, written into X. */
export function transformInto(X: ComplexPairs, x: ComplexPairs): void {
  const n = x.length / 2;
  if (n < 2) X.set(x);
  else if (powerOfTwoFrom(n) === n) planOf(n).transform(X, x);
  else bluestein(X, x);
}

/** x[j] = (1/N) Σ X[k] e^(2πi jk/N): the inverse, by conjugating before and after. */
export function inverse(X: ComplexPairs): ComplexPairs {
  const n = X.length / 2;
  const x = transform(conjugate(X));
  for (let j = 0; j < n; j++) {
    x[2 * j] = x[2 * j]! / n;
    x[2 * j + 1] = -x[2 * j + 1]! / n;
  }
  return x;
}

/** Real samples as complex ones. */
export function complexOf(samples: Float64Array): ComplexPairs {
  const out = new Float64Array(2 * samples.length);
  for (let j = 0; j < samples.length; j++) out[2 * j] = samples[j]!;
  return out;
}

function conjugate(x: ComplexPairs): ComplexPairs {
  const out = Float64Array.from(x);
  for (let j = 1; j < out.length; j += 2) out[j] = -out[j]!;
  return out;
}

/** What Bluestein's way needs of a length alone: the chirp, and the transform of it wrapped round a power of two. */
interface Chirp {
  readonly size: number;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly spectrum: ComplexPairs;
}

/** Of the lengths met last: windows and cycles of one run are alike. */
const chirps: Map<number, Chirp> = new Map();
const mostChirps = 8;
const largestKept = 2 ** 20;

function chirpOf(n: number): Chirp {
  const known = chirps.get(n);
  if (known !== undefined) return known;
  const size = powerOfTwoFrom(2 * n - 1);
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  // j² grows past what a cosine resolves; j² mod 2N is the same angle and stays exact: (j+1)² = j² + 2j + 1.
  let square = 0;
  for (let j = 0; j < n; j++) {
    cos[j] = cosine((Math.PI * square) / n);
    sin[j] = sine((Math.PI * square) / n);
    square = (square + 2 * j + 1) % (2 * n);
  }
  const b = new Float64Array(2 * size);
  for (let j = 0; j < n; j++) {
    const c = cos[j]!;
    const s = sin[j]!;
    b[2 * j] = c;
    b[2 * j + 1] = s;
    if (j > 0) {
      b[2 * (size - j)] = c;
      b[2 * (size - j) + 1] = s;
    }
  }
  const spectrum = new Float64Array(2 * size);
  planOf(size).transform(spectrum, b);
  const chirp = { size, cos, sin, spectrum };
  if (size <= largestKept) {
    const [oldest] = chirps.keys();
    if (chirps.size === mostChirps && oldest !== undefined) chirps.delete(oldest);
    chirps.set(n, chirp);
  }
  return chirp;
}

function bluestein(X: ComplexPairs, x: ComplexPairs): void {
  const n = x.length / 2;
  const { size, cos, sin, spectrum: B } = chirpOf(n);
  const a = new Float64Array(2 * size);
  for (let j = 0; j < n; j++) {
    const re = x[2 * j]!;
    const im = x[2 * j + 1]!;
    const c = cos[j]!;
    const s = sin[j]!;
    a[2 * j] = re * c + im * s;
    a[2 * j + 1] = im * c - re * s;
  }

  const fft = planOf(size);
  const A = new Float64Array(2 * size);
  fft.transform(A, a);
  for (let k = 0; k < size; k++) {
    const re = A[2 * k]! * B[2 * k]! - A[2 * k + 1]! * B[2 * k + 1]!;
    const im = A[2 * k]! * B[2 * k + 1]! + A[2 * k + 1]! * B[2 * k]!;
    A[2 * k] = re;
    A[2 * k + 1] = im;
  }
  fft.inverseTransform(a, A);

  for (let k = 0; k < n; k++) {
    const re = a[2 * k]!;
    const im = a[2 * k + 1]!;
    X[2 * k] = re * cos[k]! + im * sin[k]!;
    X[2 * k + 1] = im * cos[k]! - re * sin[k]!;
  }
}
