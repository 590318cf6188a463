/**
 * e^x with the same bits everywhere; Math.exp differs in the last bit from Node 20 to today's Chromium, + − × ÷ do not.
 *
 * x is brought to within ln 2/2 of 0 by whole powers of two (ln 2 in two parts, the first exact times them), then the
 * power series to where its next term is below rounding. Relative error below 1e-15.
 */

/** ln 2: its first 32 bits, exact times whole numbers up to 2^20, and the rest. */
const high = 0.6931471803691238;
const low = 1.9082149292705877e-10;

/** Beyond them e^x is no number, or 0. */
const largest = 709.79;
const smallest = -745.14;

export function exponential(x: number): number {
  if (x > largest) return Number.POSITIVE_INFINITY;
  if (x < smallest) return 0;
  const twos = Math.round(x / (high + low));
  const left = x - twos * high - twos * low;
  let sum = 1;
  for (let n = 18; n >= 1; n--) sum = 1 + (left * sum) / n;
  return timesTwos(sum, twos);
}

/** x 2^n, exact but where the result is smaller than a normal number. */
function timesTwos(x: number, n: number): number {
  const step = n < 0 ? 0.5 : 2;
  let out = x;
  for (let k = Math.abs(n); k > 0; k--) out *= step;
  return out;
}
