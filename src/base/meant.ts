/** What a product or difference of decimals means: rounding leaves 0.051000000000000045 of 1.05 − 0.999, and 2019.0000000000002 of 1000 × 2.019. */

/** Decimals that are looked at: nanoseconds, and billionths of a watt. */
const perUnit = 1e9;

/** The number of at most nine decimals beside `value`; `value` itself where that lies farther off than `doubt`. */
export function meant(value: number, doubt: number): number {
  const whole = Math.round(value * perUnit);
  const near = whole / perUnit;
  // Beyond, a whole number of billionths is no longer exact.
  return Math.abs(whole) < Number.MAX_SAFE_INTEGER && Math.abs(near - value) <= doubt ? near : value;
}

/** Most that rounding moves a number of this size by, and one more of its last digits. */
export function roundingOf(size: number): number {
  return Number.EPSILON * Math.abs(size);
}
