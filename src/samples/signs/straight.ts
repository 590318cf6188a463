/** A straight line in a channel that never draws one: samples that were filled in where none were read. */
import { formatQuantity } from '../../base/quantity.ts';
import { beyondChance, type EqualRuns } from './equal-runs.ts';
import { isCoarse } from './frozen.ts';
import type { Sampled, Sign } from './sign.ts';

/** Rounding puts samples of a straight line off it by half a step of the sensor, and second differences by two at most. */
const rounding_steps = 2.01;
/** What binary numbers that nobody rounded leave of a straight line. */
const binary_ratio = 1e-12;
/** A line that climbs less is the noise of a few steps. */
const fewestSteps = 5;
/** A straight line in noise is shorter than a few samples: turns come with two changes of three. */
const fewest = 20;

/** Stamps are taken as even: what fills in does so row by row. */
export function straight({ name, time_s, values, written }: Sampled, { unrest }: EqualRuns): Sign[] {
  const least = Math.max(fewest, beyondChance(unrest, values.length));
  if (least === Number.POSITIVE_INFINITY || isCoarse(values)) return [];
  const step = smallestStep(values);
  const signs: Sign[] = [];
  let [from, way] = [0, 0];
  for (let i = 2; i <= values.length; i++) {
    const bend = i < values.length ? Math.abs(values[i]! - 2 * values[i - 1]! + values[i - 2]!) : Infinity;
    const rounding = Math.max(rounding_steps * step, binary_ratio * Math.abs(values[i - 1]!));
    const change = i < values.length ? values[i]! - values[i - 1]! : 0;
    const turns = change * way < 0;
    if (change !== 0) way = change;
    if (bend <= rounding && !turns) continue;
    const to = i - 1;
    const rise = Math.abs(values[to]! - values[from]!);
    if (to - from + 1 >= least && rise > fewestSteps * step) {
      const [from_s, to_s] = [time_s[from]!, time_s[to]!];
      signs.push({
        kind: 'straight',
        channel: name,
        from_s,
        to_s,
        shows: `${name} runs straight from ${written(values[from]!)} to ${written(values[to]!)} for ${formatQuantity(to_s - from_s, 'time', 4)} (${to - from + 1} samples from ${formatQuantity(from_s, 'time', 5)} on), elsewhere it never does`,
        asks: 'samples filled in where none were read?',
      });
    }
    from = i - 1;
    way = change;
  }
  return signs.length > mostLines ? [] : signs;
}

/** More lines than this are the load's own ramps. */
const mostLines = 9;

function smallestStep(values: Float64Array): number {
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > 0 && change < step) step = change;
  }
  return step;
}
