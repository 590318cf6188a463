import { logarithm } from '../base/logarithm.ts';
import { type Bars, places_m, poles_m } from './bars.ts';
import { loopInductance_H } from './inductance.ts';
import { meanDistance_m } from './mean-distance.ts';

/**
 * Mutual inductance of a piece with another like it that runs beside it, middle to middle `across_m` away across the faces and
 * `along_m` along the width [H]. Of go and return a, b and a', b' with geometric mean distances D:
 *
 *   M = 2·10⁻⁷ H/m · l · ln(D_ab' D_a'b/(D_aa' D_bb'));   of filaments s apart, d away: |M| ≤ −2·10⁻⁷ H/m · l · ln(1 − s²/d²)
 *
 * Sources as of `inductance.ts`. No bar of the network knows another: what this is over its own L is what is left out.
 */
export function mutualInductance_H(bars: Bars, across_m: number, along_m: number): number {
  const go = places_m(bars);
  const back = go.map((place_m) => place_m + poles_m(bars));
  const mean = (one: readonly number[], other: readonly number[]): number => {
    const bar = { x_m: bars.thickness_m, y_m: bars.width_m };
    let sum = 0;
    for (const a of one)
      for (const b of other) sum += logarithm(meanDistance_m(bar, across_m + b - a, along_m));
    return sum / (one.length * other.length);
  };
  return 2e-7 * bars.length_m * (mean(go, back) + mean(back, go) - mean(go, go) - mean(back, back));
}

/** |M|/L: by how much a like current in the neighbour, changing alike, moves what a bar drops. */
export function coupling(bars: Bars, across_m: number, along_m: number): number {
  return Math.abs(mutualInductance_H(bars, across_m, along_m)) / loopInductance_H(bars);
}
