/**
 * Fold-back: what is left of a converter's current limit at low bus voltage, 1 above the voltage V_fold and from there
 * straight down to 0 at 0 V, min(1, max(0, v/V_fold)). No converter feeds or loads a bus that stands at 0 V, nor one
 * that rings below it; in between a limit that falls with the voltage keeps every node solvable.
 * Source: common practice for the current limit of converters under a short; where it begins is assumed (`fold_back`).
 *
 * `perFoldBack_V`: 1/V_fold, infinite where nothing folds back above 0 V.
 */
export function foldBack_ratio(perFoldBack_V: number, v: number): number {
  const share = v * perFoldBack_V;
  if (!(share < 1)) return 1;
  return share > 0 ? share : 0;
}

/** A current limit as the bus voltage v leaves it [A]. */
export function foldedBack_A(limit_A: number, perFoldBack_V: number, v: number): number {
  return limit_A * foldBack_ratio(perFoldBack_V, v);
}
