/** A channel that stands still where it never does: a sensor that froze, or a load that was really constant. */
import { formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import { beyondChance, type EqualRuns, lengthOf } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** A run is out of the ordinary from so many times the tenth longest on: flat levels of a pulse train come in dozens. */
const outstanding = 5;
/** The lowest part of its range, in which a load rests. */
const rest_ratio = 0.15;

/** Runs at the highest value are a matter of clipping, runs of 0 of dropouts. */
export function frozen({ name, time_s, values, written, rests }: Sampled, runs: EqualRuns): Sign[] {
  const { longest, repeat_ratio } = runs;
  const tenth = longest[9];
  const least = Math.max(
    beyondChance(repeat_ratio, values.length),
    tenth === undefined ? 0 : outstanding * lengthOf(tenth),
  );
  const { lowest, highest } = rangeOf(values);
  const ordinary = longest.filter((run) => lengthOf(run) < least);
  const elsewhere = ordinary.length === 0 ? 1 : lengthOf(ordinary[0]!);
  return longest.flatMap((run) => {
    const value = values[run.from]!;
    const isRest = rests && value <= lowest + rest_ratio * (highest - lowest);
    if (lengthOf(run) < least || value === 0 || value === highest || isRest) return [];
    const [from_s, to_s] = [time_s[run.from]!, time_s[run.to]!];
    const times = elsewhere === 1 ? 'never twice' : `at most ${elsewhere} times`;
    return [
      {
        kind: 'frozen',
        channel: name,
        from_s,
        to_s,
        sentence: `${name} stands at exactly ${written(value)} for ${formatQuantity(to_s - from_s, 'time', 4)} (${lengthOf(run)} samples from ${formatQuantity(from_s, 'time', 5)} on), elsewhere ${times} in a row: a frozen sensor, or was it really so steady?`,
      },
    ];
  });
}
