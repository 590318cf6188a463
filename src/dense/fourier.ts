/** Fourier's sums over complex columns (re, im, re, im …). Text of the compiled form (`kernel.ts`); as it stands, the plain one. */
import type { Int } from '../base/int.ts';

/**
 * a[k] = Σ a[j] e^(−2πi jk/n) in place, for n a power of two. `turns` holds e^(−πi j/h) at h + j, for every h below n that
 * is a power of two (`turns.ts`). Two halvings at once: the column is read and written half as often.
 * Source: J. W. Cooley and J. W. Tukey, Mathematics of Computation 19, 1965.
 */
export function transformPower(a: Float64Array, n: Int, turns: Float64Array): void {
  exchange(a, n);
  let half: Int = 1;
  if (isOddPower(n)) {
    for (let at: Int = 0; at < 2 * n; at += 4) {
      const re = a[at + 2]!;
      const im = a[at + 3]!;
      a[at + 2] = a[at]! - re;
      a[at + 3] = a[at + 1]! - im;
      a[at]! += re;
      a[at + 1]! += im;
    }
    half = 2;
  }
  while (half < n) {
    for (let from: Int = 0; from < n; from += 4 * half) halveTwice(a, from, half, turns);
    half *= 4;
  }
}

/** 4 h numbers from `from` on: of transforms of h one of 2 h each, of these one of 4 h. */
function halveTwice(a: Float64Array, from: Int, half: Int, turns: Float64Array): void {
  for (let j = 0; j < half; j++) {
    const p0: Int = 2 * (from + j);
    const p1: Int = p0 + 2 * half;
    const p2: Int = p1 + 2 * half;
    const p3: Int = p2 + 2 * half;
    const inner: Int = 2 * (half + j);
    const outer: Int = inner + 2 * half;
    const c = turns[inner]!;
    const s = turns[inner + 1]!;
    const r1 = a[p1]! * c - a[p1 + 1]! * s;
    const i1 = a[p1]! * s + a[p1 + 1]! * c;
    const r3 = a[p3]! * c - a[p3 + 1]! * s;
    const i3 = a[p3]! * s + a[p3 + 1]! * c;
    const sumR = a[p0]! + r1;
    const sumI = a[p0 + 1]! + i1;
    const restR = a[p0]! - r1;
    const restI = a[p0 + 1]! - i1;
    const upR = a[p2]! + r3;
    const upI = a[p2 + 1]! + i3;
    const downR = a[p2]! - r3;
    const downI = a[p2 + 1]! - i3;
    const C = turns[outer]!;
    const S = turns[outer + 1]!;
    const uR = upR * C - upI * S;
    const uI = upR * S + upI * C;
    const dR = downR * C - downI * S;
    const dI = downR * S + downI * C;
    a[p0] = sumR + uR;
    a[p0 + 1] = sumI + uI;
    a[p2] = sumR - uR;
    a[p2 + 1] = sumI - uI;
    // A quarter turn further on: −i times what the first half has.
    a[p1] = restR + dI;
    a[p1 + 1] = restI - dR;
    a[p3] = restR - dI;
    a[p3 + 1] = restI + dR;
  }
}

/** Each number to the place whose binary digits are those of its own, backwards. */
function exchange(a: Float64Array, n: Int): void {
  let to: Int = 0;
  for (let from: Int = 0; from < n; from++) {
    if (from < to) {
      const re = a[2 * from]!;
      const im = a[2 * from + 1]!;
      a[2 * from] = a[2 * to]!;
      a[2 * from + 1] = a[2 * to + 1]!;
      a[2 * to] = re;
      a[2 * to + 1] = im;
    }
    let digit: Int = n >> 1;
    while (digit >= 1 && to >= digit) {
      to -= digit;
      digit >>= 1;
    }
    to += digit;
  }
}

function isOddPower(n: Int): boolean {
  let size: Int = 1;
  while (size < n) size *= 4;
  return size !== n;
}

/**
 * x[k] = Σ x[j] e^(−2πi jk/n) in place, for any n. 2jk = j² + k² − (k−j)² makes the sum a convolution with the chirp
 * e^(πi j²/n), by transforms of `size`, a power of two ≥ 2n − 1. `spectrum`: of the chirp wrapped round that size; `a`: room.
 * Source: L. I. Bluestein, IEEE Trans. Audio Electroacoust. 18(4), 1970.
 */
export function transformAny(
  x: Float64Array,
  n: Int,
  chirp: Float64Array,
  spectrum: Float64Array,
  a: Float64Array,
  size: Int,
  turns: Float64Array,
): void {
  for (let j: Int = 0; j < 2 * n; j += 2) {
    a[j] = x[j]! * chirp[j]! + x[j + 1]! * chirp[j + 1]!;
    a[j + 1] = x[j + 1]! * chirp[j]! - x[j]! * chirp[j + 1]!;
  }
  for (let j: Int = 2 * n; j < 2 * size; j++) a[j] = 0;
  transformPower(a, size, turns);
  // The way back is the transform of the conjugate, conjugated.
  for (let j: Int = 0; j < 2 * size; j += 2) {
    const re = a[j]! * spectrum[j]! - a[j + 1]! * spectrum[j + 1]!;
    const im = a[j]! * spectrum[j + 1]! + a[j + 1]! * spectrum[j]!;
    a[j] = re;
    a[j + 1] = -im;
  }
  transformPower(a, size, turns);
  for (let j: Int = 0; j < 2 * n; j += 2) {
    const re = a[j]! / size;
    const im = -a[j + 1]! / size;
    x[j] = re * chirp[j]! + im * chirp[j + 1]!;
    x[j + 1] = im * chirp[j]! - re * chirp[j + 1]!;
  }
}
