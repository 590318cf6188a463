import { evenSamples } from './even.ts';
import { lagOf } from './lag.ts';
import { medianInterval_s, type Series } from './series.ts';
import type { Alignment } from './statement.ts';

/** Furthest lag looked for, in median intervals. */
const reach = 250;
/** A lag counts where the curves agree this well there, and no other lag comes nearer than this. */
const leastCorrelation = 0.5;
const leastConfidence = 0.05;

/**
 * Moves every channel in time to where it agrees best with the first. Where that cannot be told (weak or as good
 * elsewhere) it stays, and that is said. Stamps are changed in place.
 */
export function alignChannels(
  channels: readonly { readonly name: string; readonly series: Series }[],
): Alignment[] {
  const first = channels[0];
  if (first === undefined) return [];
  return channels.slice(1).map(({ name, series }) => {
    const from_s = Math.max(first.series.time_s[0]!, series.time_s[0]!);
    const to_s = Math.min(first.series.time_s.at(-1)!, series.time_s.at(-1)!);
    const interval_s = Math.max(medianInterval_s(first.series.time_s), medianInterval_s(series.time_s));
    const count = Math.floor((to_s - from_s) / interval_s);
    const even = (s: Series) => evenSamples(s.time_s, s.power_W, from_s, interval_s, Math.max(0, count));
    const lag = count < 8 ? null : lagOf(even(first.series), even(series), interval_s, reach);
    if (lag === null) {
      return { channel: name, lag_s: 0, correlation_ratio: 0, confidence_ratio: 0, moved: false };
    }
    const moved = lag.correlation_ratio >= leastCorrelation && lag.confidence_ratio >= leastConfidence;
    if (moved) for (let i = 0; i < series.time_s.length; i++) series.time_s[i]! -= lag.lag_s;
    return { channel: name, ...lag, moved };
  });
}
