import type { Shown } from './curve/shown.ts';
import { withoutCutOff } from './cut-off.ts';
import { intervalBetween } from './interval.ts';
import { unitOfChannel } from './measured-unit.ts';
import type { MeasuredColumn } from './measurement.ts';
import { noiseOf } from './noise.ts';
import { type Rounding, roundingOf } from './rounding.ts';
import { accuracyOf, toleranceAbout } from './sensor/accuracy.ts';
import type { Tolerance } from './within-class.ts';

/** A measured column beside what its instrument would show of the run. */
export interface MeasuredPair {
  readonly channel: string;
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  readonly shown: Shown;
  /** Standard deviation of the column's own noise. */
  readonly noise: number;
  /** What rounding may leave. */
  readonly rounding: Rounding;
  readonly interval_s: number;
  /** How far gain and zero may be off by the instrument's class; null: looked at by shape alone. */
  readonly within: Tolerance | null;
}

/** Most samples of a column that places are found by: evenly chosen where there are more. */
const mostSamples = 50_000;
/** Fewer tell nothing of their noise. */
const leastSamples = 8;

/**
 * The columns that the run has a curve for. Those that never change are left out: they show no place. So are readings at
 * the end of a range, which would show it where the run is as flat.
 */
export function pairsOf(
  columns: readonly MeasuredColumn[],
  shownOf: ReadonlyMap<string, Shown>,
): MeasuredPair[] {
  return columns.flatMap(({ channel, sensor, ...recorded }) => {
    const { time_s: allTimes_s, values: all } = withoutCutOff(recorded);
    const shown = shownOf.get(channel);
    if (shown === undefined || !(shown.to_s > shown.from_s) || allTimes_s.length < leastSamples) return [];
    const every = Math.ceil(allTimes_s.length / mostSamples);
    const chosen = (from: Float64Array): Float64Array =>
      every === 1
        ? from
        : Float64Array.from({ length: Math.ceil(from.length / every) }, (_, i) => from[i * every]!);
    const values = chosen(all);
    if (values.every((value) => value === values[0])) return [];
    const time_s = chosen(allTimes_s);
    const within = toleranceAbout(accuracyOf(unitOfChannel(channel), sensor), values);
    const interval_s = intervalBetween(time_s);
    return [
      {
        channel,
        time_s,
        values,
        shown,
        noise: noiseOf(all),
        rounding: roundingOf(all),
        interval_s,
        within,
      },
    ];
  });
}

/** With the noise of those samples alone that lie within the run: values held before and after it have none. */
export function heardWithin(
  pair: MeasuredPair,
  { at_s, rate_ratio }: { readonly at_s: number; readonly rate_ratio: number },
): MeasuredPair {
  const { time_s, values, shown } = pair;
  const inside = values.filter((_, i) => !Number.isNaN(shown.at(at_s + (1 + rate_ratio) * time_s[i]!)));
  if (inside.length === values.length || inside.length < leastSamples) return pair;
  return { ...pair, noise: noiseOf(inside), rounding: roundingOf(inside) };
}

/** The samples from one time of the measurement to another. */
export function partOf(pair: MeasuredPair, from_s: number, to_s: number): MeasuredPair {
  const { time_s, values } = pair;
  let [first, end] = [0, time_s.length];
  while (first < end && time_s[first]! < from_s) first++;
  while (end > first && time_s[end - 1]! >= to_s) end--;
  return {
    ...pair,
    time_s: time_s.subarray(first, end),
    values: values.subarray(first, end),
  };
}
