/**
 * A straight line, or a curve without a trace of noise, in a channel that never draws one: samples that were filled in where
 * none were read.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { beyondChance, type EqualRuns } from './equal-runs.ts';
import { isCoarse } from './frozen.ts';
import type { Sampled, Sign } from './sign.ts';
import { smallestStep } from './smallest-step.ts';

/** What binary numbers that nobody rounded leave of a straight line. */
const binary_ratio = 1e-12;
/** A straight line in noise is shorter than a few samples: turns come with two changes of three. */
const fewest = 20;
/** More lines than this are the load's own ramps. */
const mostLines = 9;

interface Course {
  readonly way: string;
  /** What of neighbouring samples vanishes along it. */
  readonly bendAt: (values: Float64Array, i: number) => number;
  readonly reaches: number;
  /** Rounding puts samples off it by half a step of the sensor, and differences by so many at most. */
  readonly rounding_steps: number;
  /** Or by this share of what they usually are. */
  readonly usual_ratio: number;
  /** One that climbs less is the noise of a few steps. */
  readonly fewestSteps: number;
  /** It never turns back. */
  readonly keepsItsWay: boolean;
}

const line: Course = {
  way: 'straight',
  bendAt: (v, i) => v[i]! - 2 * v[i - 1]! + v[i - 2]!,
  reaches: 2,
  rounding_steps: 2.01,
  usual_ratio: 0,
  fewestSteps: 5,
  keepsItsWay: true,
};
/** Third differences vanish of what is no more bent than a cubic over many samples. */
const curve: Course = {
  way: 'smoothly',
  bendAt: (v, i) => v[i]! - 3 * v[i - 1]! + 3 * v[i - 2]! - v[i - 3]!,
  reaches: 3,
  rounding_steps: 4.01,
  usual_ratio: 0.02,
  fewestSteps: 50,
  keepsItsWay: false,
};

/** Stamps are taken as even: what fills in does so row by row. */
export function straight(sampled: Sampled, runs: EqualRuns): Sign[] {
  if (isCoarse(sampled.values)) return [];
  const lines = along(line, sampled, runs);
  return lines.length > 0 ? lines : along(curve, sampled, runs);
}

function along(course: Course, { name, time_s, values, written }: Sampled, { unrest }: EqualRuns): Sign[] {
  const least = Math.max(fewest, beyondChance(unrest, values.length));
  if (least === Number.POSITIVE_INFINITY) return [];
  const step = smallestStep(values);
  const signs: Sign[] = [];
  const { reaches, usual_ratio } = course;
  const usual =
    usual_ratio > 0
      ? medianOf(values.length - reaches, (k) => Math.abs(course.bendAt(values, k + reaches)))
      : 0;
  let [from, way, lowest, highest] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = reaches; i <= values.length; i++) {
    const bend = i < values.length ? Math.abs(course.bendAt(values, i)) : Number.POSITIVE_INFINITY;
    const rounding = Math.max(
      course.rounding_steps * step,
      usual_ratio * usual,
      binary_ratio * Math.abs(values[i - 1]!),
    );
    const change = i < values.length ? values[i]! - values[i - 1]! : 0;
    const turns = course.keepsItsWay && change * way < 0;
    if (change !== 0) way = change;
    lowest = Math.min(lowest, values[i - 1]!);
    highest = Math.max(highest, values[i - 1]!);
    if (bend <= rounding && !turns) continue;
    const to = i - 1;
    if (to - from + 1 >= least && highest - lowest > Math.max(course.fewestSteps * step, usual)) {
      const [from_s, to_s] = [time_s[from]!, time_s[to]!];
      signs.push({
        kind: 'straight',
        channel: name,
        from_s,
        to_s,
        shows: `${name} runs ${course.way} from ${written(values[from]!)} to ${written(values[to]!)} for ${formatQuantity(to_s - from_s, 'time', 4)} (${to - from + 1} samples from ${formatQuantity(from_s, 'time', 5)} on), elsewhere it never does`,
        asks: 'samples filled in where none were read?',
      });
    }
    from = i - reaches + 1;
    way = change;
    [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  }
  return signs.length > mostLines ? [] : signs;
}
