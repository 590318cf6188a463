/** A channel of one value beside others that move: a limit, a rating or a set point, or a load that is really constant. */
import { formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import { equalRuns, isRestless } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

export function neverChanges(channels: readonly Sampled[]): Sign[] {
  const moving = channels.find(({ values }) => isRestless(equalRuns(values).unrest));
  if (moving === undefined) return [];
  return channels.flatMap(({ name, time_s, values, written }) => {
    const { lowest, highest } = rangeOf(values);
    if (lowest < highest || lowest === 0) return [];
    const [from_s, to_s] = [time_s[0]!, time_s[time_s.length - 1]!];
    return [
      {
        kind: 'never changes',
        channel: name,
        from_s,
        to_s,
        shows: `${name} is ${written(lowest)} in all ${values.length} samples over ${formatQuantity(to_s - from_s, 'time', 4)}, while ${moving.name} moves`,
        asks: 'a limit, a set point or a dead sensor, or a load that is really constant?',
      },
    ];
  });
}
