/** Zeros in a channel that never comes near 0: readings that were lost, or a load that was switched off. */
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import { areIrregular } from './irregular.ts';
import type { Sampled, Sign } from './sign.ts';

/** Values nearer to 0 than this share of the highest lead down to it. */
const floor_ratio = 0.02;
/** A level that is taken so often, and for so much of the samples, is one of the load's own. */
const mostStretches = 10;
const most_ratio = 0.05;
/** But where hardly two of them follow each other and they come by chance: no load is switched so. */
const lone_ratio = 1.5;
/** Rows that were filled up with 0 between those of another rate: stretches of hardly two samples, of zeros or between them. */
const filled = { least_ratio: 0.3, most_ratio: 0.95, stretches: 50, length: 2.2 } as const;

export function zeros({ name, time_s, values, written }: Sampled, { unrest }: EqualRuns): Sign[] {
  if (!isRestless(unrest)) return [];
  let [count, first, last] = [0, -1, -1];
  const starts: number[] = [];
  let [nearest, furthest] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (size > 0) {
      nearest = Math.min(nearest, size);
      furthest = Math.max(furthest, size);
      continue;
    }
    if (last < 0 || last < i - 1) starts.push(i);
    if (first < 0) first = i;
    last = i;
    count++;
  }
  const stretches = starts.length;
  const areLone = count < lone_ratio * stretches && areIrregular(starts);
  const isFilled = areFilled(count, stretches, values.length);
  const isLevel = stretches > mostStretches && count > most_ratio * values.length && !areLone;
  const isTold = isFilled || !(2 * count > values.length || isLevel);
  if (count === 0 || !isTold || nearest < floor_ratio * furthest) return [];
  const [from_s, to_s] = [time_s[first]!, time_s[last]!];
  const where =
    count === 1
      ? `at ${formatQuantity(from_s, 'time', 5)}`
      : `from ${formatQuantity(from_s, 'time', 5)} to ${formatQuantity(to_s, 'time', 5)}${stretches === 1 ? '' : ` in ${stretches} stretches`}`;
  return [
    {
      kind: 'zeros',
      channel: name,
      from_s,
      to_s,
      shows: `${name} is exactly ${written(0)} in ${counted(count, 'sample')} ${where}, elsewhere never below ${written(nearest)}`,
      asks:
        count === 1
          ? 'a lost reading written as 0, or did it really fall to 0 there?'
          : 'lost readings written as 0, or was it switched off?',
    },
  ];
}

function areFilled(zeros: number, stretches: number, count: number): boolean {
  const share = zeros / count;
  const shortest = Math.min(zeros, count - zeros) / stretches;
  const { least_ratio, most_ratio, length } = filled;
  return share > least_ratio && share < most_ratio && stretches > filled.stretches && shortest < length;
}
