import type { Series } from './series.ts';

export interface OpenSeam {
  readonly seam_W: number;
  /** Instant in the second half where the power is nearest to that at the start, if that would do [s]. */
  readonly better_s: number | null;
}

/**
 * Where the ends of a stretch lie further apart than any two neighbours in it, a loop would make an edge that the
 * load never had. null where they meet.
 */
export function openSeam({ time_s, power_W }: Series): OpenSeam | null {
  const n = time_s.length;
  let largest = 0;
  for (let i = 1; i < n; i++) largest = Math.max(largest, Math.abs(power_W[i]! - power_W[i - 1]!));
  const seam_W = Math.abs(power_W[n - 1]! - power_W[0]!);
  if (seam_W <= largest) return null;
  let best = n - 1;
  for (let i = n - 1; i > 0 && time_s[i]! > 0.5 * time_s[n - 1]!; i--) {
    if (Math.abs(power_W[i]! - power_W[0]!) < Math.abs(power_W[best]! - power_W[0]!)) best = i;
  }
  const met = Math.abs(power_W[best]! - power_W[0]!) <= largest;
  return { seam_W, better_s: met ? time_s[best]! : null };
}
