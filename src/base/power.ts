/**
 * x to the power y with the same bits everywhere, x > 0; `**` may differ in the last bit from one engine to the next
 * (see base/logarithm.ts). e^(y ln x), the exponent brought to within ln 2/2 of 0 by whole powers of two, then the
 * exponential's power series to where the next term is below rounding. 0 to a positive power is 0.
 * Relative error below 1e-14 (1 + |y ln x|).
 */
import { logarithm } from './logarithm.ts';

export function power(x: number, y: number): number {
  if (x === 0 || x === Number.POSITIVE_INFINITY) return x > 0 === y > 0 ? Number.POSITIVE_INFINITY : 0;
  const exponent = y * logarithm(x);
  if (!Number.isFinite(exponent)) return exponent === Number.NEGATIVE_INFINITY ? 0 : exponent;
  const twos = Math.round(exponent / Math.LN2);
  const left = exponent - twos * Math.LN2;
  let sum = 1;
  for (let n = 18; n >= 1; n--) sum = 1 + (left * sum) / n;
  const step = twos < 0 ? 0.5 : 2;
  for (let k = Math.min(Math.abs(twos), 2200); k > 0; k--) sum *= step;
  return sum;
}
