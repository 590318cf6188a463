/**
 * Value of the standard normal distribution below which a part p of it lies; good to 4.5e-4. Source: Abramowitz
 * and Stegun, Handbook of Mathematical Functions, 26.2.23.
 */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  const t = Math.sqrt(-2 * Math.log(p < 0.5 ? p : 1 - p));
  const x =
    t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return p < 0.5 ? -x : x;
}

/**
 * Value below which a part p of a triangular distribution from `low` to `high` lies, likeliest at `mode` or the end nearest to
 * it: its distribution function (x − a)²/((b − a)(c − a)) below c, 1 − (b − x)²/((b − a)(b − c)) above, solved for x.
 */
export function triangularQuantile(p: number, low: number, high: number, mode: number): number {
  const top = Math.min(high, Math.max(low, mode));
  const wide = high - low;
  if (p * wide < top - low) return low + Math.sqrt(p * wide * (top - low));
  return high - Math.sqrt((1 - p) * wide * (high - top));
}
