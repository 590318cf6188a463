import { medianOf } from '../../samples/quantile.ts';
import type { Series } from '../../samples/series.ts';
import { powerRange } from './channel-quality.ts';

export interface OpenSeam {
  readonly seam_W: number;
  /** Instant in the second half where the power is nearest to that at the start, if that would do [s]. */
  readonly better_s: number | null;
}

/** A seam this small against the stretch's swing is none that a limit would feel. */
const smallSeam_ratio = 0.05;

/**
 * Where the ends of a stretch lie apart, a loop would make an edge that the load never had at that moment: apart by
 * more than 5 % of its swing, and by more than half of the moves from one sample to the next are (noise moves that
 * much anyway; edges are few). null where they meet.
 */
export function openSeam({ time_s, power_W }: Series): OpenSeam | null {
  const n = time_s.length;
  const { min_W, max_W } = powerRange(power_W);
  const usual_W = medianOf(n - 1, (i) => Math.abs(power_W[i + 1]! - power_W[i]!));
  const most_W = Math.max(smallSeam_ratio * (max_W - min_W), usual_W);
  const seam_W = Math.abs(power_W[n - 1]! - power_W[0]!);
  if (seam_W <= most_W) return null;
  let best = n - 1;
  for (let i = n - 1; i > 0 && time_s[i]! > 0.5 * time_s[n - 1]!; i--) {
    if (Math.abs(power_W[i]! - power_W[0]!) < Math.abs(power_W[best]! - power_W[0]!)) best = i;
  }
  const met = Math.abs(power_W[best]! - power_W[0]!) <= most_W;
  return { seam_W, better_s: met ? time_s[best]! : null };
}
