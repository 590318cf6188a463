/**
 * Buckets of the whole run with the close-ups put in their places: a bucket gives way to the moments inside a close-up, and
 * keeps what lies beside it.
 */
import type { Recording } from '../src/engine/result.ts';
import type { Buckets, Series } from './series.ts';

export interface Spliced extends Buckets {
  /** The values of a channel, by its place; made when asked for. */
  seriesOf(channel: number): Series;
}

export function splice(recording: Recording): Spliced {
  const { edges_s: levels_s, bucketCount, closeUps } = recording;
  const edges: number[] = [levels_s[0] ?? 0];
  const moments: number[] = [];
  /** Where the values of each bucket come from: a bucket of the run, or a moment of a close-up. */
  const source: (number | { readonly closeUp: number; readonly moment: number })[] = [];
  let b = 0;
  const buckets = (until_s: number): void => {
    while (b < bucketCount && levels_s[b]! < until_s) {
      const end_s = Math.min(until_s, levels_s[b + 1]!);
      if (end_s > edges.at(-1)!) {
        edges.push(end_s);
        moments.push(Number.NaN);
        source.push(b);
      }
      if (levels_s[b + 1]! > until_s) return;
      b += 1;
    }
  };
  closeUps.forEach(({ time_s }, closeUp) => {
    buckets(time_s[0]!);
    const last = time_s.length - 1;
    for (let moment = 0; moment <= last; moment += 1) {
      const end_s = moment < last ? (time_s[moment]! + time_s[moment + 1]!) / 2 : time_s[last]!;
      if (end_s <= edges.at(-1)!) continue;
      edges.push(end_s);
      moments.push(time_s[moment]!);
      source.push({ closeUp, moment });
    }
  });
  buckets(Number.POSITIVE_INFINITY);
  return {
    edges_s: Float64Array.from(edges),
    moments_s: Float64Array.from(moments),
    seriesOf(channel) {
      const [min, max, mean] = [recording.min, recording.max, recording.mean].map((columns) => {
        const own = columns[channel]!;
        return Float32Array.from(source, (from) =>
          typeof from === 'number' ? own[from]! : closeUps[from.closeUp]!.values[channel]![from.moment]!,
        );
      });
      return { min: min!, max: max!, mean: mean! };
    },
  };
}
