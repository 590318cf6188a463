/** Numbers that stand for no reading, written where one was lost: exact values far above or far below all others. */
import { formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** So large a share of all samples they may be, or up to half where all others show noise. */
const most_ratio = 0.02;
const most_share = 0.5;
/** A level of the load's own is no such multiple of all others, nor of their range. */
const sentinel_ranges = 3;
/** Such numbers in one channel, and how often each comes on the mean. */
const mostSentinels = 4;
const fewestOfEach = 5;
/** A sensor that shows so many values elsewhere shows a level as several. */
const fewestValues = 20;

/** A few values, each again and again, and all others far from them on one side. `most`: up to so many samples are outliers. */
export function sentinel(
  { name, time_s, values: asTheyStand, written: writtenAsIs }: Sampled,
  { unrest }: EqualRuns,
  most: number,
  side: 1 | -1,
): Sign[] {
  const values = side > 0 ? asTheyStand : asTheyStand.map((value) => -value);
  const written = (value: number): string => writtenAsIs(side * value);
  const { lowest } = rangeOf(values);
  const tops = highestValues(values);
  for (let k = 1; k < tops.length; k++) {
    const [{ value: far }, { value: next }] = [tops[k - 1]!, tops[k]!];
    const isFar =
      next > lowest &&
      far - lowest > sentinel_ranges * (next - lowest) &&
      far > sentinel_ranges * Math.max(next, side > 0 ? 0 : -lowest);
    if (!isFar) continue;
    const own = tops.slice(0, k);
    const count = own.reduce((sum, top) => sum + top.count, 0);
    const isOneRare = k === 1 && count <= most_ratio * values.length;
    const isFine = isRestless(unrest) && takesMany(values, next);
    const areApart = own.every(({ value }, i) => i === 0 || own[i - 1]!.value - value > next - lowest);
    if (count <= most || count > most_share * values.length || count < fewestOfEach * k) return [];
    if (!isOneRare && !(isFine && areApart)) return [];
    const [from_s, to_s] = [
      time_s[Math.min(...own.map(({ first }) => first))]!,
      time_s[Math.max(...own.map(({ last }) => last))]!,
    ];
    const what = own.map(({ value }) => written(value)).join(' or ');
    return [
      {
        kind: 'spike',
        channel: name,
        from_s,
        to_s,
        shows: `${name} is exactly ${what} in ${count} samples from ${formatQuantity(from_s, 'time', 5)} to ${formatQuantity(to_s, 'time', 5)}, all others lie from ${written(side > 0 ? lowest : next)} to ${written(side > 0 ? next : lowest)}`,
        asks: 'a number that means no reading (--sentinel), or a real level?',
      },
    ];
  }
  return [];
}

/** Whether values up to `highest` are so many that a level of them would hardly be one number. */
function takesMany(values: Float64Array, highest: number): boolean {
  const met = new Set<number>();
  for (let i = 0; i < values.length && met.size < fewestValues; i++)
    if (values[i]! <= highest) met.add(values[i]!);
  return met.size === fewestValues;
}

interface Top {
  readonly value: number;
  count: number;
  readonly first: number;
  last: number;
}

/** The highest values that differ, highest first. */
function highestValues(values: Float64Array): readonly Top[] {
  const tops: Top[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (tops.length > mostSentinels && value < tops[mostSentinels]!.value) continue;
    const at = tops.findIndex((top) => top.value <= value);
    const top = tops[at];
    if (top?.value === value) {
      top.count++;
      top.last = i;
      continue;
    }
    tops.splice(at < 0 ? tops.length : at, 0, { value, count: 1, first: i, last: i });
    tops.length = Math.min(tops.length, mostSentinels + 1);
  }
  return tops;
}
