/**
 * Fold-back: what is left of a converter's current limit at low bus voltage, 1 above the voltage V_fold and from there
 * straight down to 0 at 0 V, min(1, max(0, v/V_fold)). No converter feeds or loads a bus that stands at 0 V, nor one
 * that rings below it; in between a limit that falls with the voltage keeps every node solvable.
 * Source: common practice for the current limit of converters under a short; where it begins is assumed (`fold_back`).
 */
export function foldBack_ratio(foldBack_V: number, v: number): number {
  return v >= foldBack_V ? 1 : v > 0 ? v / foldBack_V : 0;
}
