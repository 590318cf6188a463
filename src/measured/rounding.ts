/**
 * The grid that a file's values are rounded to. Rounding is an error of q²/12 on average, but no noise where the curve is
 * slower than the grid is fine: it stays alike from sample to sample, anywhere within ± q/2, which is all that can be
 * said of it.
 */

export interface Rounding {
  /** The grid, q; 0 where the values lie on none. */
  readonly step: number;
  /** RMS that solvers and digits leave between two records of the same run. */
  readonly least: number;
}

/** What solvers and digits leave, over the swing of a column. */
export const finest = 1e-6;
/** A value lies on the grid within this share of a step. */
const onStep = 0.02;
/** RMS beyond ± q/2 that noise may add to rounding, over q/√12; more noise than that makes rounding white. */
const mostBeyond = 0.5;

export function roundingOf(values: Float64Array): Rounding {
  const { swing, step } = gridOf(values);
  return { step, least: finest * swing };
}

/** The least distance of two values, where all others are whole multiples of it. */
export function gridOf(values: Float64Array): { readonly largest: number; swing: number; step: number } {
  const sorted = values.slice().sort();
  const n = sorted.length;
  if (n === 0) return { largest: 0, swing: 0, step: 0 };
  const swing = sorted[n - 1]! - sorted[0]!;
  const largest = Math.max(Math.abs(sorted[0]!), Math.abs(sorted[n - 1]!));
  let step = Number.POSITIVE_INFINITY;
  // What differs in its last bits is one value.
  const gap = (i: number): number => {
    const d = sorted[i]! - sorted[i - 1]!;
    return d > 1e-12 * largest ? d : 0;
  };
  for (let i = 1; i < n; i++) if (gap(i) > 0) step = Math.min(step, gap(i));
  for (let i = 1; i < n; i++) {
    const steps = gap(i) / step;
    if (Math.abs(steps - Math.round(steps)) > onStep) return { largest, swing, step: 0 };
  }
  return { largest, swing, step: Number.isFinite(step) ? step : 0 };
}

/** Whether what is left is no more than rounding makes of it: within half a step, but for little noise. */
export function isRounding(left: Float64Array, { step, least }: Rounding): boolean {
  let [square, beyond] = [0, 0];
  for (const e of left) {
    square += e * e;
    beyond += Math.max(0, Math.abs(e) - step / 2) ** 2;
  }
  const n = Math.max(1, left.length);
  return Math.sqrt(square / n) <= least || Math.sqrt(beyond / n) <= (mostBeyond * step) / Math.sqrt(12);
}
