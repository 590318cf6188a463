/** A channel that is flat at its top and nowhere else: a sensor at the end of its range, or a load held by a cap. */
import { counted } from '../../base/counted.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { rangeOf } from '../range.ts';
import { beyondChance, TurnCount, type Unrest } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** What a channel does at its highest value, and how values move below it. */
interface Top {
  readonly count: number;
  readonly stretches: number;
  readonly longest: number;
  readonly first: number;
  readonly last: number;
  /** How samples move that are not at the top. */
  readonly below: Unrest;
}

export function clipped(one: Sampled): Sign[] {
  return flatTop(one, 'below', 1);
}

/** `others`: where all others lie, as people see it. Of a top that takes a larger share of the samples nothing is said. */
export function flatTop(
  { name, time_s, values, written }: Sampled,
  others: 'above' | 'below',
  most_share: number,
): Sign[] {
  const { lowest, highest } = rangeOf(values);
  const top = topOf(values, highest);
  if (lowest === highest || top.longest < beyondChance(top.below, values.length)) return [];
  if (top.count > most_share * values.length) return [];
  const [from_s, to_s] = [time_s[top.first]!, time_s[top.last]!];
  const within = `${formatQuantity(from_s, 'time', 5)} to ${formatQuantity(to_s, 'time', 5)}`;
  return [
    {
      kind: 'clipped',
      channel: name,
      from_s,
      to_s,
      shows: `${name} is cut off at ${written(highest)}: ${counted(top.count, 'sample')} of exactly that (${formatPercent(top.count / values.length, 2)}) in ${counted(top.stretches, 'stretch', 'stretches')} from ${within}, up to ${top.longest} in a row, and values ${others} hardly repeat`,
      asks: 'a sensor at its end of range, or a load held at a cap?',
    },
  ];
}

function topOf(values: Float64Array, highest: number): Top {
  const turns = new TurnCount();
  let [count, stretches, longest, first, last, run] = [0, 0, 0, -1, -1, 0];
  for (let i = 0; i < values.length; i++) {
    if (values[i] === highest) {
      if (run === 0) stretches++;
      if (first < 0) first = i;
      run++;
      count++;
      last = i;
      if (run > longest) longest = run;
      continue;
    }
    if (i > 0 && run === 0) turns.meet(values[i]! - values[i - 1]!);
    else turns.break();
    run = 0;
  }
  return { count, stretches, longest, first, last, below: turns.unrest(values.length - count) };
}
