/**
 * Describing functions: what an element without memory makes of B + A sin θ at the frequency of the sine, over A; and its mean.
 * All are odd about their centre, so they have no phase. Sources, from memory: A. Gelb, W. E. Vander Velde, Multiple-Input
 * Describing Functions and Nonlinear System Design (1968); D. P. Atherton, Nonlinear Control Engineering (1975). Each is held
 * against its Fourier integral in tests/linear/cycles/describing.test.ts.
 */

import { arcTangent } from '../../base/arc-tangent.ts';
import { cosine, sine } from '../../base/sine.ts';

/** An element of a loop: what it gives, and its describing function. */
export interface Element {
  of(x: number): number;
  /** Gain of the sine at amplitude A > 0 about B. */
  gain(A: number, B: number): number;
  /** Mean of what it gives. */
  mean(A: number, B: number): number;
  /** The scale of its corners: amplitudes are looked for about it. */
  readonly size: number;
}

/** asin(x) of |x| ≤ 1, its ends beyond. */
function arcSine(x: number): number {
  const held = x > 1 ? 1 : x < -1 ? -1 : x;
  return arcTangent(held, Math.sqrt(1 - held * held));
}

/**
 * Rounding to whole quanta q, the relay of many levels: N = (2q/πA) Σ √(1 − ((t − B)/A)²) over the thresholds t = (k + ½)q
 * that the sine crosses; each adds q(½ + asin((B − t)/A)/π) to the mean. Midway between two codes and for A < q it is the ideal relay.
 */
export function stairs(q: number): Element {
  const crossed = (A: number, B: number): readonly number[] => {
    const [first, last] = [Math.round((B - A) / q), Math.round((B + A) / q)];
    return Array.from({ length: last - first }, (_, k) => (first + k + 0.5) * q);
  };
  return {
    size: q,
    of: (x) => Math.round(x / q) * q,
    gain: (A, B) =>
      ((2 * q) / (Math.PI * A)) *
      crossed(A, B).reduce((sum, t) => sum + Math.sqrt(Math.max(0, 1 - ((t - B) / A) ** 2)), 0),
    mean: (A, B) =>
      crossed(A, B).reduce(
        (sum, t) => sum + q * (0.5 + arcSine((B - t) / A) / Math.PI),
        Math.round((B - A) / q) * q,
      ),
  };
}

/** Clamp to ±δ: N = (2/π)(asin r + r √(1 − r²)), r = δ/A, and 1 for A ≤ δ. About 0 alone. */
export function saturation(delta: number): Element {
  return {
    size: delta,
    of: (x) => (x > delta ? delta : x < -delta ? -delta : x),
    gain: (A) => {
      if (A <= delta) return 1;
      const r = delta / A;
      return (2 / Math.PI) * (arcSine(r) + r * Math.sqrt(1 - r * r));
    },
    mean: () => 0,
  };
}

/** Dead band that is subtracted, x less its clamp to ±δ: N = 1 − N of the clamp. About 0 alone. */
export function deadBand(delta: number): Element {
  const clamp = saturation(delta);
  return {
    size: delta,
    of: (x) => x - clamp.of(x),
    gain: (A, B) => 1 - clamp.gain(A, B),
    mean: () => 0,
  };
}

/** Amplitude of harmonic n of what an element gives, by the trapezoidal rule over one turn. */
export function harmonic(element: Element, n: number, A: number, B: number, points = 4096): number {
  let [re, im] = [0, 0];
  for (let k = 0; k < points; k++) {
    const angle = (2 * Math.PI * k) / points;
    const y = element.of(B + A * sine(angle));
    re += y * sine(n * angle);
    im += y * cosine(n * angle);
  }
  return (2 / points) * Math.hypot(re, im);
}
