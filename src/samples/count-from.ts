/** Rising stamps counted from another one, in place, as the decimals that they are written in mean. */
import { meant, roundingOf } from '../base/meant.ts';

export function countFrom(first_s: number, time_s: Float64Array): void {
  let before = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < time_s.length; i++) {
    const stamp = time_s[i]!;
    const counted = stamp - first_s;
    const near = meant(counted, roundingOf(stamp) + roundingOf(first_s));
    // Stamps a last digit apart stay apart.
    const isApart = near > before && !(i + 1 < time_s.length && near >= time_s[i + 1]! - first_s);
    before = isApart ? near : counted;
    time_s[i] = before;
  }
}
