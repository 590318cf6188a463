import { evenSamples } from '../../samples/even.ts';
import { lagOf } from '../../samples/lag.ts';
import { medianInterval_s, type Series, trapezoid_J } from '../../samples/series.ts';
import type { Alignment } from './statement.ts';

/** Furthest lag looked for, in median intervals. */
const reach = 250;
/** A channel is moved where the curves agree this well at the lag found, and no other lag comes nearer than this. */
const leastCorrelation = 0.5;
export const leastConfidence = 0.2;
/** Furthest move, as a share of the time that both channels cover: beyond it one would replace what was recorded. */
const furthestMove_ratio = 0.05;
/** Points that are compared at most: the middle of a longer recording stands for the whole. */
const mostPoints = 20_000;

/** A channel with the series it has then, and how that came. */
export interface Aligned {
  readonly series: Series;
  readonly alignment: Alignment;
}

/**
 * Moves every channel but the first in time to where it agrees best with the first. Where that cannot be told (weak,
 * as good elsewhere, or far) it stays, and that is said. A moved channel keeps its samples, and holds its last value to
 * where both were recorded, so that no energy of the others is cut for it. The first channel has no entry.
 */
export function alignChannels(
  channels: readonly { readonly name: string; readonly series: Series }[],
): Aligned[] {
  const first = channels[0];
  if (first === undefined) return [];
  return channels.slice(1).map(({ name, series }) => {
    const from_s = Math.max(first.series.time_s[0]!, series.time_s[0]!);
    const to_s = Math.min(first.series.time_s.at(-1)!, series.time_s.at(-1)!);
    const interval_s = Math.max(medianInterval_s(first.series.time_s), medianInterval_s(series.time_s));
    const all = Math.floor((to_s - from_s) / interval_s);
    const count = Math.min(all, mostPoints);
    const begin_s = from_s + 0.5 * (all - count) * interval_s;
    const even = (s: Series) => evenSamples(s.time_s, s.power_W, begin_s, interval_s, count);
    const lag = count < 8 ? null : lagOf(even(first.series), even(series), interval_s, reach);
    const before_J = trapezoid_J(series.time_s, series.power_W);
    const stays = { channel: name, moved: false, energy_before_J: before_J, energy_after_J: before_J };
    if (lag === null) {
      return { series, alignment: { ...stays, lag_s: 0, correlation_ratio: 0, confidence_ratio: 0 } };
    }
    const sure = lag.correlation_ratio >= leastCorrelation && lag.confidence_ratio >= leastConfidence;
    if (!sure || Math.abs(lag.lag_s) > furthestMove_ratio * (to_s - from_s)) {
      return { series, alignment: { ...stays, ...lag } };
    }
    const moved = movedOver(series, lag.lag_s, from_s, to_s);
    const after_J = trapezoid_J(moved.time_s, moved.power_W);
    return { series: moved, alignment: { ...stays, ...lag, moved: true, energy_after_J: after_J } };
  });
}

/** The series `lag_s` earlier, held at an end that then no longer reaches to where both channels were recorded. */
function movedOver({ time_s, power_W }: Series, lag_s: number, from_s: number, to_s: number): Series {
  const n = time_s.length;
  const head = time_s[0]! - lag_s > from_s ? 1 : 0;
  const tail = time_s[n - 1]! - lag_s < to_s ? 1 : 0;
  const moved = { time_s: new Float64Array(n + head + tail), power_W: new Float64Array(n + head + tail) };
  moved.power_W.set(power_W, head);
  for (let i = 0; i < n; i++) moved.time_s[i + head] = time_s[i]! - lag_s;
  if (head > 0) [moved.time_s[0], moved.power_W[0]] = [from_s, power_W[0]!];
  if (tail > 0) [moved.time_s[n + head], moved.power_W[n + head]] = [to_s, power_W[n - 1]!];
  return moved;
}
