import type { Stream } from '../engine/result.ts';

/** Simulated value at a time of the run, straight between samples; NaN outside. */
export function simulatedAt({ samples, rate_Hz, from_s }: Stream, time_s: number): number {
  // Sample k is the middle of its millisecond.
  const x = (time_s - from_s) * rate_Hz - 0.5;
  const i = Math.floor(x);
  if (!(i >= 0 && i + 1 < samples.length)) return Number.NaN;
  return samples[i]! + (samples[i + 1]! - samples[i]!) * (x - i);
}
