/**
 * Samples of several devices in turns under one name. Of two nearly every sample turns back from the one before, which no load
 * does at every rate, or stamps come in pairs; of more each nth follows the nth before it. Read as one device they count as
 * the mean of all where it should be their sum.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import { isCoarse } from './frozen.ts';
import { devicesInTurns } from './in-turns.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

/** Of white noise two thirds of the changes turn back, of two levels in turns nearly all. */
const turning_ratio = 0.9;
/** A sensor that shows one value so often is held between its readings, and every nth reading is its own. */
const held_ratio = 0.1;
/** Stamps of a slow clock lie one or two of its units apart, or two and three and so on; so much shorter is no rounding. */
const shorter_ratio = 0.45;
/** Nor is what is nearer to 1 than that, and far enough from any such fraction. */
const nearly_ratio = 0.85;
const mostUnits = 8;
const fraction_ratio = 0.015;
/** Share of the steps that follow one of the other length. */
const paired_ratio = 0.9;

const number = ['', '', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];
const ordinal = ['', '', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];

export function interleaved({ name, time_s, values }: Sampled, { unrest }: EqualRuns): Sign[] {
  // Of a coarse sensor each step up has its step down, and it may take them in turns.
  const turning = unrest.turn_ratio * (1 - unrest.repeat_ratio);
  const isTurning = unrest.changes >= fewestSamples && turning >= turning_ratio && !isCoarse(values);
  const mayBeMany = isRestless(unrest) && unrest.repeat_ratio < held_ratio;
  const many = mayBeMany ? devicesInTurns(values) : null;
  // Steady devices apart never show a small step from one to the next: each by itself does.
  const count = many !== null && isCoarse(everyNth(values, many)) ? null : many;
  const pair = isTurning || count !== null ? null : pairedSteps(time_s);
  if (!isTurning && pair === null && count === null) return [];
  const length = (step_s: number): string => formatQuantity(step_s, 'time', 3);
  const shows =
    count !== null && (count > 2 || !isTurning)
      ? `${name}: every ${ordinal[count]} sample keeps to itself, apart from those between, all along`
      : pair === null
        ? `${name} turns back at ${formatPercent(unrest.turn_ratio, 2)} of its changes, from sample to sample`
        : `stamps of ${name} come in pairs: ${length(pair[0])} and ${length(pair[1])} apart in turns`;
  const devices = count === null ? 'two' : number[count];
  const [from_s, to_s] = [time_s[0]!, time_s[time_s.length - 1]!];
  const asks = `${devices} devices under one name, which would be summed${count === null || count === 2 ? '' : ', or a load that repeats itself at that rate'}?`;
  return [{ kind: 'interleaved', channel: name, from_s, to_s, shows, asks }];
}

function everyNth(values: Float64Array, n: number): Float64Array {
  return Float64Array.from({ length: Math.floor(values.length / n) }, (_, k) => values[k * n]!);
}

/** The shorter and the longer of two steps that take turns; null where they do not. */
function pairedSteps(time_s: Float64Array): readonly [number, number] | null {
  const steps = time_s.length - 1;
  const stepAt = (i: number): number => time_s[i + 1]! - time_s[i]!;
  const half_s = 0.5 * medianOf(steps - 1, (i) => time_s[i + 2]! - time_s[i]!);
  let turns = 0;
  for (let i = 1; i < steps; i++) if (stepAt(i) < half_s !== stepAt(i - 1) < half_s) turns++;
  if (turns < paired_ratio * (steps - 1)) return null;
  const every = [0, 1].map((from) =>
    medianOf(Math.floor((steps - from + 1) / 2), (k) => stepAt(from + 2 * k)),
  );
  const [short, long] = every.toSorted((a, b) => a - b) as [number, number];
  return isNoRounding(short / long) ? [short, long] : null;
}

function isNoRounding(ratio: number): boolean {
  if (ratio < shorter_ratio) return true;
  for (let units = 1; units <= mostUnits; units++)
    if (Math.abs(ratio - units / (units + 1)) < fraction_ratio) return false;
  return ratio < nearly_ratio;
}
