/**
 * Part of a standard normal distribution that lies below x; relative error below 1e-12 on either side. Within 3 the series
 * φ(x) (x + x³/3 + x⁵/(3·5) + …), beyond the continued fraction of its tail (Abramowitz and Stegun, Handbook of Mathematical
 * Functions, 26.2.11 and 26.2.14; from memory).
 */
import { exponential } from '../../base/exponential.ts';

const density = (x: number): number => exponential(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

export function normalShare(x: number): number {
  if (Math.abs(x) > 3) {
    const tail = tailBeyond(Math.abs(x));
    return x > 0 ? 1 - tail : tail;
  }
  let term = x;
  let sum = x;
  for (let n = 3; Math.abs(term) > 1e-18; n += 2) {
    term *= (x * x) / n;
    sum += term;
  }
  return 0.5 + sum * density(x);
}

/** Terms of the continued fraction: at 3 they give twelve digits. */
const terms = 120;

function tailBeyond(x: number): number {
  let below = x;
  for (let k = terms; k >= 1; k--) below = x + k / below;
  return density(x) / below;
}
