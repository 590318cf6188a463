/** A few lone samples far outside of all others: a disturbance or a number that stands for no reading, or a real peak. */
import { formatQuantity } from '../../base/quantity.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import { areIrregular } from './irregular.ts';
import { sentinel } from './sentinel.ts';
import type { Sampled, Sign } from './sign.ts';

/** More samples than this are no accident, but where they come by chance. */
const most = 5;
/** So far outside, in ranges of all others: no other sample is half as far. */
const outside_ranges = 1;
/** Neighbours that are far outside too make a peak of several samples. */
const widest = 2;
/** Of more the channel must show noise, and they must not come evenly, as peaks of its own do. */
const mostByChance_ratio = 0.01;
const mostByChance = 400;
export function spike(sampled: Sampled, runs: EqualRuns): Sign[] {
  return ([1, -1] as const).flatMap((side) => {
    const alone = sentinel(sampled, runs, most, side);
    return alone.length > 0 ? alone : outliers(sampled, side, runs);
  });
}

/** Samples far above all others; far below with a sign of −1. */
function outliers({ name, time_s, values, written }: Sampled, sign: 1 | -1, { unrest }: EqualRuns): Sign[] {
  const byChance = Math.min(mostByChance, Math.floor(mostByChance_ratio * values.length));
  const all = isRestless(unrest) ? Math.max(most, byChance) : most;
  const top = furthest(values, sign, all);
  let opposite = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) opposite = Math.min(opposite, sign * values[i]!);
  for (let count = 1; count <= all; count++) {
    const [least, next] = [sign * values[top[count - 1]!]!, sign * values[top[count]!]!];
    if (least - next <= outside_ranges * (next - opposite)) continue;
    const places = top.slice(0, count).sort((a, b) => a - b);
    const isByChance = count <= most || areIrregular(places);
    if (next === opposite || widestIn(places) > widest || !isByChance) return [];
    const [from_s, to_s] = [time_s[places[0]!]!, time_s[places[count - 1]!]!];
    const far = written(values[top[0]!]!);
    const at = formatQuantity(time_s[top[0]!]!, 'time', 5);
    const what =
      count === 1
        ? `one sample, ${far} at ${at}, stands`
        : `${count} samples, ${far} at ${at} the furthest, stand`;
    return [
      {
        kind: 'spike',
        channel: name,
        from_s,
        to_s,
        shows: `${name}: ${what} alone; all others lie from ${written(sign > 0 ? opposite : -next)} to ${written(sign > 0 ? next : -opposite)}`,
        asks: `a disturbance, a number that means no reading (--sentinel), or a real ${sign > 0 ? 'peak' : 'dip'}?`,
      },
    ];
  }
  return [];
}

/** Places of the samples furthest out, furthest first, one more than may stand alone. */
function furthest(values: Float64Array, sign: 1 | -1, most: number): number[] {
  const places: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = sign * values[i]!;
    if (places.length > most && value <= sign * values[places[most]!]!) continue;
    let at = places.length;
    while (at > 0 && sign * values[places[at - 1]!]! < value) at--;
    places.splice(at, 0, i);
    places.length = Math.min(places.length, most + 1);
  }
  return places;
}

/** Samples in the longest row of neighbours. */
function widestIn(places: readonly number[]): number {
  let longest = 1;
  let row = 1;
  for (let k = 1; k < places.length; k++) {
    row = places[k] === places[k - 1]! + 1 ? row + 1 : 1;
    longest = Math.max(longest, row);
  }
  return longest;
}
