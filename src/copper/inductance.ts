import { logarithm } from '../base/logarithm.ts';
import { type Bars, places_m, poles_m } from './bars.ts';
import { meanDistance_m } from './mean-distance.ts';

/**
 * Of a pole and its return, long against their distance, the current even over the copper [H]:
 * L = 4·10⁻⁷ H/m · l · ln(D_m/D_s), D_m the geometric mean distance between the poles, D_s that of a pole from itself.
 * E. B. Rosa, The self and mutual inductances of linear conductors, Bulletin of the Bureau of Standards 4 (1908); F. W. Grover,
 * Inductance Calculations, 1946. At the frequencies at which current crowds to the surfaces it is lower.
 */
export function loopInductance_H(bars: Bars): number {
  const own = places_m(bars);
  const apart_m = poles_m(bars);
  const other = own.map((place_m) => place_m + apart_m);
  return 4e-7 * bars.length_m * (meanLog(bars, own, other) - meanLog(bars, own, own));
}

/** Mean of ln r over the copper of two poles with bars at these places. */
function meanLog(
  { width_m, thickness_m }: Bars,
  one_m: readonly number[],
  other_m: readonly number[],
): number {
  const bar = { x_m: thickness_m, y_m: width_m };
  let sum = 0;
  for (const a of one_m) for (const b of other_m) sum += logarithm(meanDistance_m(bar, b - a, 0));
  return sum / (one_m.length * other_m.length);
}
