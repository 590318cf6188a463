/**
 * What transforms a power of two of complex values. The library's own constructor fills lists of a language's numbers, 28 MB on the
 * way to a plan of 2^19, with cosines that differ in the last bit from one engine to the next: here columns hold our own.
 */
import FFT from 'fft.js';
import { cosine, sine } from '../../base/sine.ts';

/** Plans by size: making one costs as much as using it. Larger ones are made anew, for memory. */
const plans: Map<number, FFT> = new Map();
const largestKept = 2 ** 17;

/** What transforms so many complex values, a power of two from 2 on; throws RangeError on others. */
export function planOf(size: number): FFT {
  const known = plans.get(size);
  if (known !== undefined) return known;
  if (size < 2 || (size & (size - 1)) !== 0)
    throw new RangeError(`no transform of ${size} values: no power of two`);
  const plan = made(size);
  if (size <= largestKept) plans.set(size, plan);
  return plan;
}

/** A plan of the library by its own fields. */
function made(size: number): FFT {
  const power = 31 - Math.clz32(size);
  // Stages take two bits of a place each; the first, of four or eight values, those that are left.
  const bits = power % 2 === 0 ? power - 2 : power - 1;
  return Object.assign(new FFT(2), {
    size,
    _csize: 2 * size,
    table: turnsBack(size),
    _width: bits + 1,
    _bitrev: begins(bits),
  });
}

/** e^(−2πi k/N), cosine and sine side by side. */
function turnsBack(N: number): Float64Array {
  const table = new Float64Array(2 * N);
  for (let k = 0; k < N; k++) {
    const angle = (2 * Math.PI * k) / N;
    table[2 * k] = cosine(angle);
    table[2 * k + 1] = -sine(angle);
  }
  return table;
}

/** Where each of the first stage begins to read: its place with the order of its pairs of bits turned round, in a column of pairs. */
function begins(bits: number): Int32Array {
  const places = new Int32Array(1 << bits);
  for (let j = 0; j < places.length; j++) {
    let turned = 0;
    for (let shift = 0; shift < bits; shift += 2) turned |= ((j >>> shift) & 3) << (bits - 2 - shift);
    places[j] = 2 * turned;
  }
  return places;
}
