import type { Series } from '../../samples/series.ts';

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

/** Stamps of all channels from `from` to `to`, each once, rising: counted first, so that no more is kept than needed. */
function unionOf(channels: readonly Series[], from: number, to: number): Float64Array {
  const stamps = new Float64Array(merge(channels, from, to, null));
  merge(channels, from, to, stamps);
  return stamps;
}

function merge(channels: readonly Series[], from: number, to: number, out: Float64Array | null): number {
  const at = channels.map(({ time_s }) => time_s.findIndex((t) => t >= from));
  let kept = 0;
  for (;;) {
    let next = Number.POSITIVE_INFINITY;
    for (let c = 0; c < at.length; c++) {
      const { time_s } = channels[c]!;
      if (at[c]! < time_s.length && time_s[at[c]!]! < next) next = time_s[at[c]!]!;
    }
    if (!(next <= to)) return kept;
    if (out !== null) out[kept] = next;
    kept++;
    for (let c = 0; c < at.length; c++) {
      const { time_s } = channels[c]!;
      if (at[c]! < time_s.length && time_s[at[c]!]! === next) at[c]!++;
    }
  }
}
