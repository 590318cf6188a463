import type { Series } from './series.ts';

/**
 * Sum of channels with stamps of their own: over the span that all of them cover, at every stamp that any of them
 * has, each channel on its straight line. No kink is lost, so the energy is the sum of the channels' energies
 * over that span. Null where no span is covered by all.
 */
export function sumChannels(channels: readonly Series[]): Series | null {
  const from = Math.max(...channels.map((c) => c.time_s[0]!));
  const to = Math.min(...channels.map((c) => c.time_s[c.time_s.length - 1]!));
  if (!(to > from)) return null;
  const stamps = unionOf(channels, from, to);
  const power = new Float64Array(stamps.length);
  for (const { time_s, power_W } of channels) {
    let i = 0;
    for (let k = 0; k < stamps.length; k++) {
      const t = stamps[k]!;
      while (i + 2 < time_s.length && time_s[i + 1]! <= t) i++;
      const t0 = time_s[i]!;
      const v0 = power_W[i]!;
      power[k]! += v0 + (power_W[i + 1]! - v0) * ((t - t0) / (time_s[i + 1]! - t0));
    }
  }
  return { time_s: stamps, power_W: power };
}

function unionOf(channels: readonly Series[], from: number, to: number): Float64Array {
  let count = 0;
  for (const { time_s } of channels) count += time_s.length;
  const all = new Float64Array(count);
  let n = 0;
  for (const { time_s } of channels) {
    for (let i = 0; i < time_s.length; i++) {
      const t = time_s[i]!;
      if (t >= from && t <= to) all[n++] = t;
    }
  }
  const sorted = all.subarray(0, n).sort();
  let kept = 0;
  for (let i = 0; i < n; i++) {
    if (i === 0 || sorted[i] !== sorted[i - 1]) sorted[kept++] = sorted[i]!;
  }
  return sorted.slice(0, kept);
}
