/** A channel that does what another does, a thousand times smaller: its unit may be another one. */
import { rangeOf } from '../range.ts';
import type { Sampled, Sign } from './sign.ts';
import { isThousands } from './thousands.ts';

/** Peaks and means of the two lie apart by the same ratio, within this factor. */
const alike = 2;

/** `channels` of one quantity, so that their values can be held against each other. */
export function anotherScale(channels: readonly Sampled[]): Sign[] {
  const sizes = channels.map((one) => ({
    one,
    mean: meanSize(one.values),
    highest: rangeOf(one.values).highest,
  }));
  const largest = sizes.reduce((a, b) => (b.mean > a.mean ? b : a));
  return sizes.flatMap(({ one, mean, highest }) => {
    const [means, peaks] = [largest.mean / mean, largest.highest / highest];
    if (!isThousands(means) || means > alike * peaks || peaks > alike * means) return [];
    return [
      {
        kind: 'another scale',
        channel: one.name,
        from_s: one.time_s[0]!,
        to_s: one.time_s[one.time_s.length - 1]!,
        shows: `${one.name} is ${Number(means.toPrecision(3))} times smaller than ${largest.one.name} (means ${one.written(mean)} and ${one.written(largest.mean)}) and varies as much`,
        asks: 'is its unit another one?',
      },
    ];
  });
}

function meanSize(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.abs(values[i]!);
  return sum / values.length;
}
