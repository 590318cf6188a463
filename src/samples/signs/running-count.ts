/**
 * A channel that runs one way but where it begins anew: a count that runs on, an energy for example or what is left of one, and
 * no power.
 */
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { quantileOf } from '../quantile.ts';
import { rangeOf } from '../range.ts';
import type { Sampled, Sign } from './sign.ts';

/** A count runs on in more than this share of the samples; of fewer rises it may be a load that was switched up. */
const rising_ratio = 0.5;
/** It begins anew this often at most, each time by so much of its range: a counter of some bits, or one that was reset. */
const most_ratio = 0.02;
const anew_ratio = 0.5;
/** Oftener only by one and the same number, but for what it counts from one sample to the next. */
const mostByOne_ratio = 0.2;
/** What it counts per sample is small against its range: else it wraps faster than it is read. */
const step_ratio = 0.2;
/** Ramps of a load that fall so often are its own, however straight they are. */
const mostRamps = 3;
/** A coarse count rises so often at least, by one to three of its units, and stands no longer than this share of all. */
const fewestSteps = 20;
const mostUnits = 3;
const standing_share = 0.25;
/** A noisy one rises from each of so many blocks to the next, from next to nothing, by so many times what samples scatter. */
const blocks = 50;
const from_ratio = 0.05;
const scatters = 100;

/** How a channel moves in one way and back. */
interface Moves {
  readonly rises: number;
  readonly falls: number;
  readonly smallestRise: number;
  readonly largestRise: number;
  readonly smallestFall: number;
  readonly largestFall: number;
  /** Most samples from one rise to the next. */
  readonly standing: number;
}

export function runningCount(sampled: Sampled): Sign[] {
  return [...running(sampled, 1), ...running(sampled, -1)];
}

function running({ name, time_s, values, written }: Sampled, way: 1 | -1): Sign[] {
  const n = values.length;
  const moves = movesOf(values, way);
  const runs = runsOn(values, moves) || isCoarseCount(values, moves);
  const isNoisy = !runs && moves.falls > 0 && runsThroughNoise(values, way);
  if (!runs && !isNoisy) return [];
  const back = way > 0 ? 'falls' : 'rises';
  const anew = moves.falls === 0 ? '' : ` but ${counted(moves.falls, 'time')}, when it begins anew,`;
  const over = `in ${n} samples over ${formatQuantity(time_s[n - 1]! - time_s[0]!, 'time', 4)}, from ${written(values[0]!)} to ${written(values[n - 1]!)}`;
  const onward = way > 0 ? 'runs on' : 'runs down';
  return [
    {
      kind: 'running count',
      channel: name,
      from_s: time_s[0]!,
      to_s: time_s[n - 1]!,
      shows: isNoisy
        ? `${name} ${way > 0 ? 'rises' : 'falls'} all along but for its noise, ${over}`
        : `${name} never ${back}${anew} ${over}`,
      asks: `an energy or another count that ${onward}, or a load that really only ${way > 0 ? 'rises' : 'falls'}?`,
    },
  ];
}

function movesOf(values: Float64Array, way: 1 | -1): Moves {
  let [rises, falls, standing, last] = [0, 0, 0, 0];
  let [smallestRise, largestRise] = [Number.POSITIVE_INFINITY, 0];
  let [smallestFall, largestFall] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 1; i < values.length; i++) {
    const change = way * (values[i]! - values[i - 1]!);
    if (change > 0) {
      rises++;
      smallestRise = Math.min(smallestRise, change);
      largestRise = Math.max(largestRise, change);
      standing = Math.max(standing, i - last);
      last = i;
    } else if (change < 0) {
      falls++;
      smallestFall = Math.min(smallestFall, -change);
      largestFall = Math.max(largestFall, -change);
    }
  }
  standing = Math.max(standing, values.length - last);
  return { rises, falls, smallestRise, largestRise, smallestFall, largestFall, standing };
}

function runsOn(values: Float64Array, moves: Moves): boolean {
  const n = values.length;
  const { rises, falls, smallestFall, largestFall, largestRise } = moves;
  if (rises <= rising_ratio * n) return false;
  const isByOne = falls <= mostByOne_ratio * n && largestFall - smallestFall <= largestRise;
  if (falls > Math.max(1, most_ratio * n) && !isByOne) return false;
  const { lowest, highest } = rangeOf(values);
  if (falls > 0 && smallestFall < anew_ratio * (highest - lowest)) return false;
  const change = (i: number): number => Math.abs(values[i + 1]! - values[i]!);
  const step = quantileOf(n - 1, change, 0.9);
  const isSmall = step <= step_ratio * (highest - lowest) || (isByOne && falls > most_ratio * n);
  return isSmall && !(falls > mostRamps && isEven(n, change));
}

/** Steps of a unit or a few, one after the other, all along; what it falls back by is its range, each time. */
function isCoarseCount(values: Float64Array, moves: Moves): boolean {
  const { rises, falls, smallestRise, largestRise, smallestFall, standing } = moves;
  const { lowest, highest } = rangeOf(values);
  return (
    rises >= fewestSteps &&
    largestRise <= mostUnits * smallestRise * (1 + 1e-9) &&
    standing <= standing_share * values.length &&
    falls <= mostByOne_ratio * rises &&
    (falls === 0 || smallestFall >= highest - lowest - largestRise)
  );
}

function runsThroughNoise(values: Float64Array, way: 1 | -1): boolean {
  const size = Math.floor(values.length / blocks);
  if (size < 2) return false;
  const ahead = Array.from({ length: blocks }, (_, k) => {
    let sum = 0;
    for (let i = k * size; i < (k + 1) * size; i++) sum += values[i]!;
    return sum / size;
  });
  const means = way > 0 ? ahead : ahead.reverse();
  if (means.some((mean, k) => k > 0 && mean <= means[k - 1]!)) return false;
  const [first, last] = [means[0]!, means.at(-1)!];
  const scatter = quantileOf(values.length - 1, (i) => Math.abs(values[i + 1]! - values[i]!), 0.5);
  return Math.abs(first) < from_ratio * last && last - first > scatters * scatter;
}

/** Whether it rises by the same from sample to sample, rounding aside, as a ramp does. */
function isEven(n: number, change: (i: number) => number): boolean {
  const [low, high] = [0.05, 0.9].map((share) => quantileOf(n - 1, change, share));
  let rounding = Number.POSITIVE_INFINITY;
  for (let i = 1; i < n - 1; i++) {
    const unlike = Math.abs(change(i) - change(i - 1));
    if (unlike > 0 && unlike < rounding) rounding = unlike;
  }
  return high! < 1.5 * (low! + (Number.isFinite(rounding) ? rounding : 0));
}
