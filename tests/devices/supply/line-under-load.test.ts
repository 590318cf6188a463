/**
 * The upper root against phasors iterated to rest, V ← |E − Z conj(S/V)| with V real (textbook: how a load flow of one line
 * is solved by hand), and the largest power against the closed form for power factor 1. Tolerance: rounding.
 */
import { describe, expect, it } from 'vitest';
import { largestPower, middleOfRoots, upperRoot } from '../../../src/devices/supply/line-under-load.ts';

const E = 400;

/** |V| by fixed point from the unloaded line: I = conj(S/V), V = E − Z I, all complex. */
function iterated(R: number, X: number, P: number, Q: number): number {
  let re = E;
  let im = 0;
  for (let pass = 0; pass < 5000; pass++) {
    const square = re * re + im * im;
    // I = conj(S)/conj(V) = (P − jQ)(re + j im)/|V|².
    const iRe = (P * re + Q * im) / square;
    const iIm = (P * im - Q * re) / square;
    re = E - (R * iRe - X * iIm);
    im = -(R * iIm + X * iRe);
  }
  return Math.hypot(re, im);
}

function root(R: number, X: number, P: number, Q: number): number {
  return upperRoot(middleOfRoots(E, R, X, P, Q), Math.hypot(R, X) * Math.hypot(P, Q));
}

describe('the voltage of a line under constant power', () => {
  const Z = 4;
  const cases = [0, 1, 5, 20].flatMap((ratio) =>
    [1, 0.95, 0.7].flatMap((factor) => [0.1, 0.5, 0.9].map((share) => [ratio, factor, share] as const)),
  );
  it.each(cases)('X/R %s, power factor %s, %s of the largest power', (ratio, factor, share) => {
    const R = Z / Math.hypot(1, ratio);
    const X = ratio * R;
    const t = Math.sqrt(1 - factor * factor) / factor;
    const P = share * largestPower(E, R, X, t);
    expect(root(R, X, P, t * P)).toBeCloseTo(iterated(R, X, P, t * P), 7);
  });

  it.each([0, 1, 5, 20])('has both roots meet at E²/(2 |Z| (1 + cos θ)), X/R %s', (ratio) => {
    const R = Z / Math.hypot(1, ratio);
    const X = ratio * R;
    const closed = (E * E) / (2 * Z * (1 + Math.cos(Math.atan(ratio))));
    expect(largestPower(E, R, X, 0)).toBeCloseTo(closed, 6);
    const gap = (P: number): number => middleOfRoots(E, R, X, P, 0) - Z * P;
    expect(gap(closed * (1 - 1e-9))).toBeGreaterThan(0);
    expect(gap(closed * (1 + 1e-9))).toBeLessThan(0);
    // There the load is as large as the source's own impedance.
    expect(root(R, X, closed * (1 - 1e-13), 0)).toBeCloseTo(E / (2 * Math.cos(Math.atan(ratio) / 2)), 3);
  });
});
