/** How much of a stretch of a recording nobody recorded: gaps are bridged by straight lines. */
import type { Gap } from '../../samples/gaps.ts';
import type { Series } from '../../samples/series.ts';
import type { Bridged, RecordedLoad } from './recorded-load.ts';

/**
 * Beyond this share a stretch cannot be judged: its peaks, dips and edges are then more likely lost in the gaps than
 * recorded beside them, and what is judged is the bridge.
 */
export const mostInvented_ratio = 0.5;

/** The gaps of channels with the share that each has of their mean powers, as far as these were recorded. */
export function bridgedBy(channels: readonly Series[], gaps: readonly (readonly Gap[])[]): Bridged[] {
  const means_W = channels.map((series, k) => recordedMean_W(series, gaps[k]!));
  const all_W = means_W.reduce((sum, mean_W) => sum + mean_W, 0);
  return means_W.map((mean_W, k) => ({
    share_ratio: all_W > 0 ? mean_W / all_W : 1 / means_W.length,
    gaps: gaps[k]!,
  }));
}

function recordedMean_W({ time_s, power_W }: Series, gaps: readonly Gap[]): number {
  let [energy_J, span_s, gap] = [0, 0, 0];
  for (let i = 1; i < time_s.length; i++) {
    if (gaps[gap]?.from_s === time_s[i - 1]) {
      gap++;
      continue;
    }
    const step_s = time_s[i]! - time_s[i - 1]!;
    energy_J += 0.5 * (power_W[i]! + power_W[i - 1]!) * step_s;
    span_s += step_s;
  }
  return span_s > 0 ? energy_J / span_s : 0;
}

/** Share of the time from `from_s` to `to_s` that lies in gaps, of each channel by its part of the power. */
export function inventedRatio(
  { bridged }: Pick<RecordedLoad, 'bridged'>,
  from_s: number,
  to_s: number,
): number {
  const within_s = (gap: Gap): number => Math.max(0, Math.min(gap.to_s, to_s) - Math.max(gap.from_s, from_s));
  return bridged.reduce(
    (sum, { share_ratio, gaps }) =>
      sum + (share_ratio * gaps.reduce((all, gap) => all + within_s(gap), 0)) / (to_s - from_s),
    0,
  );
}

/** The longest span without a gap. */
export function longestWhole({ gaps, statement }: Pick<RecordedLoad, 'gaps' | 'statement'>): Gap {
  const ends = [0, ...gaps.flatMap((gap) => [gap.from_s, gap.to_s]), statement.duration_s];
  let best = { from_s: 0, to_s: 0 };
  for (let k = 0; k + 1 < ends.length; k += 2)
    if (ends[k + 1]! - ends[k]! > best.to_s - best.from_s) best = { from_s: ends[k]!, to_s: ends[k + 1]! };
  return best;
}
