/** Values far below 0 of what is never negative: left out as noise about 0 is, they would go without a word. */
import { formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import type { Sampled, Sign } from './sign.ts';

/** So far below 0, as a share of the highest, is no noise about it. */
const far_ratio = 0.1;

/** Values by rising stamps. */
export interface Below {
  readonly time_s: Float64Array;
  readonly values: Float64Array;
}

/** Of values below 0 those that are far there. */
export function farBelow({ time_s, values }: Below, highest: number): Below {
  const isFar = (_: number, i: number): boolean => values[i]! < -far_ratio * highest;
  return { time_s: time_s.filter(isFar), values: values.filter(isFar) };
}

/** Whether they are one and the same value, as one that stands for no reading is. */
export function isOneValue({ values }: Below): boolean {
  return values.every((value) => value === values[0]);
}

/** `below`: what was left out of the channel. */
export function farBelowZero({ name, values, written }: Sampled, below: Below): Sign[] {
  const { lowest, highest } = rangeOf(values);
  const far = farBelow(below, highest);
  const count = far.values.length;
  if (count === 0) return [];
  const place = far.values.reduce((at, value, i) => (value < far.values[at]! ? i : at), 0);
  const [from_s, to_s] = [far.time_s[0]!, far.time_s[count - 1]!];
  const time = (time_s: number): string => formatQuantity(time_s, 'time', 5);
  const furthest = `${written(far.values[place]!)} at ${time(far.time_s[place]!)}`;
  const is =
    count === 1
      ? `: one sample, ${furthest}, is far below 0`
      : isOneValue(far)
        ? ` is exactly ${written(far.values[0]!)} in ${count} samples from ${time(from_s)} to ${time(to_s)}`
        : `: ${count} samples, ${furthest} the furthest, are far below 0`;
  return [
    {
      kind: 'spike',
      channel: name,
      from_s,
      to_s,
      shows: `${name}${is}, all others lie from ${written(lowest)} to ${written(highest)}`,
      asks: 'a number that means no reading (--sentinel), or a real value below 0?',
    },
  ];
}
