/** A channel that never falls but where it begins anew: a count that runs on, an energy for example, and no power. */
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
/** What it counts per sample is small against its range: else it wraps faster than it is read. */
const step_ratio = 0.2;
/** Ramps of a load that fall so often are its own, however straight they are. */
const mostRamps = 3;

export function runningCount({ name, time_s, values, written }: Sampled): Sign[] {
  const n = values.length;
  const { lowest, highest } = rangeOf(values);
  let [rises, falls, smallest] = [0, 0, Number.POSITIVE_INFINITY];
  for (let i = 1; i < n; i++) {
    const change = values[i]! - values[i - 1]!;
    if (change > 0) rises++;
    if (change >= 0) continue;
    falls++;
    smallest = Math.min(smallest, -change);
  }
  if (rises <= rising_ratio * n || falls > Math.max(1, most_ratio * n)) return [];
  if (falls > 0 && smallest < anew_ratio * (highest - lowest)) return [];
  const change = (i: number): number => Math.abs(values[i + 1]! - values[i]!);
  const step = quantileOf(n - 1, change, 0.9);
  if (step > step_ratio * (highest - lowest) || (falls > mostRamps && isEven(n, change))) return [];
  const anew = falls === 0 ? '' : ` but ${counted(falls, 'time')}, when it begins anew,`;
  return [
    {
      kind: 'running count',
      channel: name,
      from_s: time_s[0]!,
      to_s: time_s[n - 1]!,
      shows: `${name} never falls${anew} in ${n} samples over ${formatQuantity(time_s[n - 1]! - time_s[0]!, 'time', 4)}, from ${written(values[0]!)} to ${written(values[n - 1]!)}`,
      asks: 'an energy or another count that runs on, or a load that really only rises?',
    },
  ];
}

/** Whether it rises by the same from sample to sample, rounding aside, as a ramp does. */
function isEven(n: number, change: (i: number) => number): boolean {
  const [low, high] = [0.05, 0.9].map((share) => quantileOf(n - 1, change, share));
  let step = Number.POSITIVE_INFINITY;
  for (let i = 0; i < n - 1; i++) if (change(i) > 0) step = Math.min(step, change(i));
  return high! < 1.5 * (low! + step);
}
