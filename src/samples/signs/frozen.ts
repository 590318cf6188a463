/** A channel that stands still where it never does: a sensor that froze, or a load that was really constant. */
import { formatQuantity } from '../../base/quantity.ts';
import { quantileOf } from '../quantile.ts';
import { rangeOf } from '../range.ts';
import {
  beyondChance,
  type EqualRun,
  type EqualRuns,
  isRestless,
  lengthOf,
  TurnCount,
} from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** A run is out of the ordinary from so many times the tenth longest on: flat levels of a pulse train come in dozens. */
const outstanding = 5;
/** Changes of fewer steps of the sensor than this are its rounding more than what it measures. */
const coarse_steps = 2.5;
/** The lowest part of its range, in which a load rests; rare peaks, of which one may be false, make no range. */
const rest_ratio = 0.15;
const busy_share = 0.98;
/** Samples within so much of the range stand at one level. */
const level_ratio = 0.03;

/** Runs at the highest value are a matter of clipping, runs of 0 of dropouts. At its lowest a load may rest. */
export function frozen({ name, time_s, values, written, rests }: Sampled, runs: EqualRuns): Sign[] {
  const { longest, unrest } = runs;
  const tenth = longest[9];
  if (isCoarse(values)) return [];
  const least = Math.max(
    beyondChance(unrest, values.length),
    tenth === undefined ? 0 : outstanding * lengthOf(tenth),
  );
  const { lowest, highest } = rangeOf(values);
  const busy = quantileOf(values.length, (i) => values[i]!, busy_share);
  const ordinary = longest.filter((run) => lengthOf(run) < least);
  const elsewhere = ordinary.length === 0 ? 1 : lengthOf(ordinary[0]!);
  return longest.flatMap((run) => {
    const value = values[run.from]!;
    const range = busy - lowest;
    const isRest =
      rests && value <= lowest + rest_ratio * range && !movesAbout(values, run, level_ratio * range);
    if (lengthOf(run) < least || value === 0 || value === highest || isRest) return [];
    const [from_s, to_s] = [time_s[run.from]!, time_s[run.to]!];
    const times = elsewhere === 1 ? 'never twice' : `at most ${elsewhere} times`;
    return [
      {
        kind: 'frozen',
        channel: name,
        from_s,
        to_s,
        shows: `${name} stands at exactly ${written(value)} for ${formatQuantity(to_s - from_s, 'time', 4)} (${lengthOf(run)} samples from ${formatQuantity(from_s, 'time', 5)} on), elsewhere ${times} in a row`,
        asks: 'a frozen sensor, or was it really so steady?',
      },
    ];
  });
}

/** Whether the channel moves as restlessly at the level of this run as elsewhere, but in it: a load that rests, rests there. */
function movesAbout(values: Float64Array, run: EqualRun, width: number): boolean {
  const level = values[run.from]!;
  const turns = new TurnCount();
  let samples = 0;
  for (let i = 1; i < values.length; i++) {
    const isOutside = i <= run.from || i > run.to;
    if (isOutside && Math.abs(values[i]! - level) <= width && Math.abs(values[i - 1]! - level) <= width) {
      samples++;
      turns.meet(values[i]! - values[i - 1]!);
    } else turns.break();
  }
  return isRestless(turns.unrest(samples));
}

/**
 * Whether most changes are a step or two of the sensor: its noise then shows where a value lies between two steps and
 * not where it lies on one, and standing still says nothing.
 */
export function isCoarse(values: Float64Array): boolean {
  let step = Number.POSITIVE_INFINITY;
  let changes = 0;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change === 0) continue;
    changes++;
    if (change < step) step = change;
  }
  let small = 0;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > 0 && change < coarse_steps * step) small++;
  }
  return 2 * small > changes;
}
