import { medianOf } from '../samples/quantile.ts';
import { beyondChance, equalRuns, lengthOf } from '../samples/signs/equal-runs.ts';
import { finest, gridOf } from './rounding.ts';

/** Of a column with a few values the step may be what it does, not what it is rounded to: at most this share of the swing. */
const mostOfSwing = 0.1;

/**
 * Noise of a column from its second differences, whose standard deviation is √6 of it; by their median, so that
 * edges do not count. At least what rounding to the file's grid makes, q/√12, or a millionth of the swing. A curve that
 * bends from sample to sample is heard as noise as well: `curve` is what a model shows at the same samples, and is taken off.
 * Readings that stand still among others that do not, cut off or frozen, have no noise to be heard.
 */
export function noiseOf(values: Float64Array, curve: Float64Array | null = null): number {
  const { largest, swing, step } = gridOf(values);
  const rest = curve === null ? values : values.map((value, i) => value - curve[i]!);
  const moving = movingAt(values);
  const bend = (k: number): number => {
    const i = moving[k]!;
    return Math.abs(rest[i]! - 2 * rest[i + 1]! + rest[i + 2]!);
  };
  const median = moving.length === 0 ? 0 : medianOf(moving.length, bend);
  const least = Math.max(finest * swing, 1e-9 * largest, 1e-12);
  // 0.6745: median of the absolute value of a normal number.
  const noise = median / 0.6745 / Math.sqrt(6);
  return Math.max(noise, Math.min(step / Math.sqrt(12), mostOfSwing * swing), least);
}

/** Where three samples begin that do not all stand still in a run longer than chance makes one. */
function movingAt(values: Float64Array): number[] {
  const { longest, unrest } = equalRuns(values);
  const least = beyondChance(unrest, values.length);
  const still = longest.filter((run) => lengthOf(run) >= least);
  return [...values.keys()]
    .slice(0, -2)
    .filter((i) => !still.some(({ from, to }) => from <= i && i + 2 <= to));
}
