/**
 * Discrete Fourier transform of any length, so that whole periods fall on bins whatever their length: powers of two at
 * once, other lengths through Bluestein's chirp. The loops are those of `dense/`, compiled where they may be.
 */
import { cosine, sine } from '../../base/sine.ts';
import { compiled } from '../../dense/compiled.ts';
import { transformAny, transformPower } from '../../dense/fourier.ts';
import { turnsFor } from '../../dense/turns.ts';

/** Complex numbers side by side: re, im, re, im … */
export type ComplexPairs = Float64Array;

/** Of longer ones nothing is kept, and they run as they stand: what the compiled form has once taken of memory it keeps. */
const longestKept = 2 ** 20;

function powerOfTwoFrom(least: number): number {
  let size = 2;
  while (size < least) size *= 2;
  return size;
}

/** X[k] = Σ x[j] e^(−2πi jk/N) of `count` complex values. */
export function transform(x: ComplexPairs): ComplexPairs {
  const X = Float64Array.from(x);
  transformInPlace(X);
  return X;
}

function transformInPlace(x: ComplexPairs): void {
  const n = x.length / 2;
  if (n < 2) return;
  if (powerOfTwoFrom(n) === n) ofPower(x);
  else ofAny(x);
}

function ofPower(x: ComplexPairs): void {
  const n = x.length / 2;
  const turns = turnsFor(n);
  const fast = n > longestKept ? null : compiled();
  if (fast === null) transformPower(x, n, turns);
  else fast.through([x, turns], [x], (...at) => fast.call.transformPower(at[0]!, n, at[1]!));
}

function ofAny(x: ComplexPairs): void {
  const n = x.length / 2;
  const { size, chirp, spectrum } = chirpOf(n);
  const turns = turnsFor(size);
  const room = new Float64Array(2 * size);
  const fast = size > longestKept ? null : compiled();
  if (fast === null) transformAny(x, n, chirp, spectrum, room, size, turns);
  else
    fast.through([x, chirp, spectrum, room, turns], [x], (...at) =>
      fast.call.transformAny(at[0]!, n, at[1]!, at[2]!, at[3]!, size, at[4]!),
    );
}

/** x[j] = (1/N) Σ X[k] e^(2πi jk/N): the inverse, by conjugating before and after. */
export function inverse(X: ComplexPairs): ComplexPairs {
  const x = Float64Array.from(X);
  inverseInPlace(x);
  return x;
}

/** The inverse in place, without memory of its own. */
export function inverseInPlace(X: ComplexPairs): void {
  const n = X.length / 2;
  for (let j = 1; j < X.length; j += 2) X[j] = -X[j]!;
  transformInPlace(X);
  for (let j = 0; j < X.length; j += 2) {
    X[j] = X[j]! / n;
    X[j + 1] = -X[j + 1]! / n;
  }
}

/** Real samples as complex ones. */
export function complexOf(samples: Float64Array): ComplexPairs {
  const out = new Float64Array(2 * samples.length);
  for (let j = 0; j < samples.length; j++) out[2 * j] = samples[j]!;
  return out;
}

/** What Bluestein's way needs of a length alone: the chirp, and the transform of it wrapped round a power of two. */
interface Chirp {
  readonly size: number;
  readonly chirp: ComplexPairs;
  readonly spectrum: ComplexPairs;
}

/** Of the lengths met last: windows and cycles of one run are alike. */
const chirps: Map<number, Chirp> = new Map();
const mostChirps = 8;

function chirpOf(n: number): Chirp {
  const known = chirps.get(n);
  if (known !== undefined) return known;
  const size = powerOfTwoFrom(2 * n - 1);
  const chirp = new Float64Array(2 * n);
  const spectrum = new Float64Array(2 * size);
  // j² grows past what a cosine resolves; j² mod 2N is the same angle and stays exact: (j+1)² = j² + 2j + 1.
  let square = 0;
  for (let j = 0; j < n; j++) {
    const mirrored = n % 2 === 0 && 2 * j > n ? 2 * (n - j) : -1;
    // (N−j)² is j² but for whole turns where N is even.
    const re = mirrored < 0 ? cosine((Math.PI * square) / n) : chirp[mirrored]!;
    const im = mirrored < 0 ? sine((Math.PI * square) / n) : chirp[mirrored + 1]!;
    chirp[2 * j] = spectrum[2 * j] = re;
    chirp[2 * j + 1] = spectrum[2 * j + 1] = im;
    if (j > 0) {
      spectrum[2 * (size - j)] = re;
      spectrum[2 * (size - j) + 1] = im;
    }
    square = (square + 2 * j + 1) % (2 * n);
  }
  ofPower(spectrum);
  const made = { size, chirp, spectrum };
  if (size <= longestKept) {
    const [oldest] = chirps.keys();
    if (chirps.size === mostChirps && oldest !== undefined) chirps.delete(oldest);
    chirps.set(n, made);
  }
  return made;
}
