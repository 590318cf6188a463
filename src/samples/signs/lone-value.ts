/** One exact value that comes again and again, each time alone among others which hardly ever repeat: no reading, perhaps. */
import { formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** So long it stands at most, and it comes and goes by so many usual changes. */
const longest = 5;
const jump_changes = 4;
/** So often it comes, and so many times as often as any other value that stands alone. */
const fewest = 8;
const oftener = 4;
/** Values that are taken at all: of few levels one comes often by itself. */
const fewestValues = 100;
/** Values that are counted at most. */
const mostKept = 100_000;

interface Lone {
  times: number;
  samples: number;
  readonly first: number;
  last: number;
}

export function loneValue({ name, time_s, values, written }: Sampled, { unrest }: EqualRuns): Sign[] {
  if (!isRestless(unrest)) return [];
  const lone = lonelyValues(values);
  const [most, next] = [...lone].sort(([, a], [, b]) => b.times - a.times);
  if (most === undefined) return [];
  const [value, { times, samples, first, last }] = most;
  // Of zeros there is a sign of their own.
  if (value === 0) return [];
  if (times < Math.max(fewest, oftener * (next?.[1].times ?? 0))) return [];
  if (!takesMany(values, fewestValues)) return [];
  // A level of the load's own is held for longer too.
  if (isHeld(value, values)) return [];
  const [from_s, to_s] = [time_s[first]!, time_s[last]!];
  return [
    {
      kind: 'spike',
      channel: name,
      from_s,
      to_s,
      shows: `${name} is exactly ${written(value)} in ${samples} samples from ${formatQuantity(from_s, 'time', 5)} to ${formatQuantity(to_s, 'time', 5)}, ${times} times for a moment between others, of which none comes back so`,
      asks: 'a number that means no reading (--sentinel), or a real level?',
    },
  ];
}

/** Values that stand for a few samples and are left as abruptly as they came. */
function lonelyValues(values: Float64Array): ReadonlyMap<number, Lone> {
  const changeAt = (i: number): number => Math.abs(values[i]! - values[i - 1]!);
  const least = jump_changes * medianOf(values.length - 1, (k) => changeAt(k + 1));
  const found = new Map<number, Lone>();
  for (let from = 1; from < values.length; ) {
    let end = from + 1;
    while (end < values.length && values[end] === values[from]) end++;
    const isLone =
      end < values.length && end - from <= longest && changeAt(from) > least && changeAt(end) > least;
    if (isLone) {
      const known = found.get(values[from]!);
      if (known !== undefined) {
        known.times++;
        known.samples += end - from;
        known.last = end - 1;
      } else if (found.size < mostKept)
        found.set(values[from]!, { times: 1, samples: end - from, first: from, last: end - 1 });
    }
    from = end;
  }
  return found;
}

function isHeld(value: number, values: Float64Array): boolean {
  let run = 0;
  for (let i = 0; i < values.length && run <= longest; i++) run = values[i] === value ? run + 1 : 0;
  return run > longest;
}

function takesMany(values: Float64Array, many: number): boolean {
  const met = new Set<number>();
  for (let i = 0; i < values.length && met.size < many; i++) met.add(values[i]!);
  return met.size >= many;
}
