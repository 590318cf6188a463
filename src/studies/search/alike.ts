/**
 * When two headrooms are alike, so that neither candidate is better: where they differ by less than a thousandth of the
 * allowance. The engine is accurate to about 1e-4 of a swing, which near a limit is some 1e-3 of what it allows. What is
 * alike is ranked as it was asked for.
 */
export const alike_ratio = 1e-3;

/** On which step of `alike_ratio` a headroom lies; what lies beyond the limit never shares one with what keeps it. */
export function stepOf(headroom: number): number {
  const step = Math.round(headroom / alike_ratio);
  return headroom < 0 ? Math.min(-1, step) : Math.max(0, step);
}

/** Whether a headroom is as good as another, on the same side of the limit. */
export function isAlike(a: number, b: number): boolean {
  return a < 0 === b < 0 && Math.abs(a - b) < alike_ratio;
}
