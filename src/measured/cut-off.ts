/**
 * Values at which a column is cut off, as its own samples show: an instrument at the end of its range reads nothing beyond.
 * Both ends of a range are such; nothing is below a column that rests at 0.
 */
import { rangeOf } from '../samples/range.ts';
import { clipped } from '../samples/signs/clipped.ts';
import { fewestSamples, type Sampled, type Sign } from '../samples/signs/sign.ts';

type Samples = Pick<Sampled, 'time_s' | 'values'>;

/** The largest value, the smallest, both or none. */
export function cutOffAt(column: Samples): readonly number[] {
  const one: Sampled = { ...column, name: '', written: String, rests: false };
  const { lowest, highest } = rangeOf(column.values);
  return [
    ...(column.values.length >= fewestSamples && clipped(one).length > 0 ? [highest] : []),
    ...(clippedBelow(one).length > 0 ? [lowest] : []),
  ];
}

/** The sign of a column that is cut off at its smallest value. */
export function clippedBelow(one: Sampled): Sign[] {
  if (one.values.length < fewestSamples || one.values.includes(0)) return [];
  return clipped({
    ...one,
    values: one.values.map((value) => -value),
    written: (value) => one.written(-value),
  });
}

/** The samples that are readings: none at a value where the column is cut off. */
export function withoutCutOff({ time_s, values }: Samples): Samples {
  const ends = cutOffAt({ time_s, values });
  if (ends.length === 0) return { time_s, values };
  const kept = [...values.keys()].filter((i) => !ends.includes(values[i]!));
  return {
    time_s: Float64Array.from(kept, (i) => time_s[i]!),
    values: Float64Array.from(kept, (i) => values[i]!),
  };
}
