/**
 * Natural logarithm with the same bits everywhere; Math.log may differ in the last bit from one engine to the next,
 * + − × ÷ do not (see base/sine.ts). x > 0.
 *
 * x is brought into 1/√2 to √2 by whole powers of two, then ln m = 2 artanh((m − 1)/(m + 1)) by its power series,
 * to where the next term is below rounding. Relative error below 1e-14.
 */
export function logarithm(x: number): number {
  if (!(x > 0)) return x === 0 ? Number.NEGATIVE_INFINITY : Number.NaN;
  if (x === Number.POSITIVE_INFINITY) return x;
  let m = x;
  let twos = 0;
  while (m > Math.SQRT2) {
    m /= 2;
    twos++;
  }
  while (m < Math.SQRT1_2) {
    m *= 2;
    twos--;
  }
  const z = (m - 1) / (m + 1);
  let sum = 0;
  for (let n = 21; n >= 1; n -= 2) sum = sum * z * z + 1 / n;
  return twos * Math.LN2 + 2 * z * sum;
}
