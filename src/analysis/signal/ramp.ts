/** Ramps of a signal known by its means over short windows. */
import type { Span } from '../../events/spans.ts';
import { touches } from '../record/spans.ts';

export interface Ramp {
  /** Signed: up is positive [unit/s]. */
  readonly ramp: number;
  /** Where the two windows meet. */
  readonly time_s: number;
}

/**
 * The steepest ramp: (mean of the window after t − mean of the window before t) / window, at every t on the
 * grid of the means. Both windows together must stay clear of `left_out`. null where none fits.
 * `means[j]` covers from_s + j width_s … + width_s; window_s is a whole number of widths.
 */
export function steepestRamp(
  means: Float64Array,
  from_s: number,
  width_s: number,
  window_s: number,
  left_out: readonly Span[],
): Ramp | null {
  const w = Math.round(window_s / width_s);
  if (w < 1) throw new RangeError(`a ramp over ${window_s} s needs means narrower than ${width_s} s`);
  // Sums up to each mean, of as many as both windows hold: those of an hour would take 3 MB at every call.
  const kept = 2 * w + 1;
  const sums = new Float64Array(kept);
  let sum = 0;
  let best: Ramp | null = null;
  for (let end = 1; end <= means.length; end++) {
    sum += means[end - 1]!;
    sums[end % kept] = sum;
    const j = end - w;
    if (j < w) continue;
    const time_s = from_s + j * width_s;
    if (left_out.length > 0 && touches(left_out, time_s - window_s, time_s + window_s)) continue;
    const ramp = (sum - 2 * sums[j % kept]! + sums[(j - w) % kept]!) / (w * w * width_s);
    if (best === null || Math.abs(ramp) > Math.abs(best.ramp)) best = { ramp, time_s };
  }
  return best;
}
