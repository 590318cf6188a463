/**
 * x to the power y with the same bits everywhere, x ≥ 0; `**` differs in the last bit from Node 20 to today's Chromium.
 * e^(y ln x); relative error below 1e-14 (1 + |y ln x|).
 */
import { exponential } from './exponential.ts';
import { logarithm } from './logarithm.ts';

export function power(x: number, y: number): number {
  if (y === 0) return 1;
  return exponential(y * logarithm(x));
}

/** ∛x, one step of Newton's method behind the power: relative error below 1e-15. */
export function cubeRoot(x: number): number {
  if (!(Math.abs(x) > 0 && Number.isFinite(x))) return x;
  const guess = Math.sign(x) * power(Math.abs(x), 1 / 3);
  return guess - (guess - x / (guess * guess)) / 3;
}
