import type { Result } from '../../engine/result.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { noiseOf } from '../../measured/noise.ts';
import { simulatedAt } from '../../measured/simulated-at.ts';
import { BadInput } from '../../problem.ts';
import { formatQuantity } from '../../quantity.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Adjusted } from './adjusted.ts';
import { confidenceOf } from './confidence.ts';
import { leastSquares } from './least-squares.ts';

export interface FitResult {
  readonly value: number;
  /** 95 % interval; null where the measurement does not bound the value. */
  readonly interval: readonly [number, number] | null;
  readonly unit: string;
  readonly start: number;
  readonly range: readonly [number, number];
  /** The value stands at an end of its range: the truth may lie beyond. */
  readonly at_end: boolean;
}

export interface FitReport {
  readonly result: Readonly<Record<string, FitResult>>;
  /** RMS of measured less simulated over the noise of each channel, all channels together. */
  readonly error_before: number;
  readonly error_after: number;
  readonly channels: readonly {
    readonly channel: string;
    readonly unit: string;
    readonly samples: number;
    readonly noise: number;
    readonly rms_before: number;
    readonly rms_after: number;
  }[];
  /** Groups of parameters of which only a combination is known. */
  readonly cannot_tell_apart: readonly (readonly string[])[];
  readonly without_effect: readonly string[];
  readonly correlation: Readonly<Record<string, Readonly<Record<string, number | null>>>>;
  /** null where it has no finite number. */
  readonly condition: number | null;
  readonly measured_at_s: number;
  readonly iterations: number;
  readonly runs: number;
  readonly converged: boolean;
  /** The changes that carry the found values over into a run. */
  readonly changes: readonly Change[];
}

export interface FitCase {
  readonly adjusted: readonly Adjusted[];
  readonly measurement: Measurement;
  /** Runs with these changes; the measured channels must be among the streams. */
  readonly run: (changes: readonly Change[]) => Promise<Result>;
  /** Time of the run at which the file's first stamp lies [s]. */
  readonly at_s: number;
  readonly onIteration?: (iteration: number, error: number) => void;
}

interface Point {
  readonly channel: number;
  readonly time_s: number;
  readonly value: number;
}

/**
 * Adjusts parameters within their ranges so that the run agrees best with the measurement: least squares of
 * (measured − simulated)/noise over all channels, the noise of each taken from its own second differences.
 */
export async function fitParameters({
  adjusted,
  measurement,
  run,
  at_s,
  onIteration,
}: FitCase): Promise<FitReport> {
  const noise = measurement.columns.map(({ values }) => noiseOf(values));
  const changesAt = (values: readonly number[]): Change[] =>
    adjusted.map(({ path, dimension, low, high }, j) => ({
      path,
      value: formatQuantity(low + values[j]! * (high - low), dimension),
    }));
  const start = adjusted.map(({ start: value, low, high }) => (value - low) / (high - low));
  const first = await run(changesAt(start));
  const points = pointsOf(measurement, first, at_s);
  const residuals = (result: Result): Float64Array => {
    const streams = measurement.columns.map(({ channel }) => streamOf(result, channel));
    return Float64Array.from(points, ({ channel, time_s, value }) => {
      const simulated = simulatedAt(streams[channel]!, time_s);
      if (Number.isNaN(simulated)) throw new RangeError(`run ${result.status} before ${time_s} s`);
      return (value - simulated) / noise[channel]!;
    });
  };
  let latest = first;
  const found = await leastSquares(
    async (values) => {
      latest = values.every((v, j) => v === start[j]) ? first : await run(changesAt(values));
      return residuals(latest);
    },
    start,
    {
      ...(onIteration === undefined
        ? {}
        : { onIteration: (k: number, sum: number) => onIteration(k, Math.sqrt(sum / points.length)) }),
    },
  );
  const sure = confidenceOf(found);
  const before = residuals(first);
  const name = (j: number): string => adjusted[j]!.path;
  return {
    result: Object.fromEntries(
      adjusted.map(({ path, start: from, low, high, dimension }, j) => {
        const value = low + found.values[j]! * (high - low);
        const half = sure.halfWidths[j] ?? null;
        const wide = half === null ? null : half * (high - low);
        return [
          path,
          {
            value,
            interval: wide === null ? null : [value - wide, value + wide],
            unit: formatQuantity(1, dimension).replace(/^[\d.]+\s*/, ''),
            start: from,
            range: [low, high],
            at_end: found.values[j]! <= 0 || found.values[j]! >= 1,
          } satisfies FitResult,
        ];
      }),
    ),
    error_before: Math.sqrt(found.sumBefore / points.length),
    error_after: Math.sqrt(found.sumAfter / points.length),
    channels: measurement.columns.map(({ channel }, c) => ({
      channel,
      unit: /_([A-Za-z]+)$/.exec(channel)?.[1] ?? '',
      samples: points.filter((point) => point.channel === c).length,
      noise: noise[c]!,
      rms_before: rmsOf(before, points, c) * noise[c]!,
      rms_after: rmsOf(found.residuals, points, c) * noise[c]!,
    })),
    cannot_tell_apart: sure.together.map((group) => group.map(name)),
    without_effect: sure.withoutEffect.map(name),
    correlation: Object.fromEntries(
      sure.correlation.map((row, a) => [name(a), Object.fromEntries(row.map((r, b) => [name(b), r]))]),
    ),
    condition: Number.isFinite(sure.condition) ? sure.condition : null,
    measured_at_s: at_s,
    iterations: found.iterations,
    runs: found.runs,
    converged: found.converged,
    changes: changesAt(found.values),
  };
}

function streamOf(result: Result, channel: string) {
  const stream = result.streams.find((s) => s.channel === channel);
  if (stream === undefined) throw new RangeError(`no stream of ${channel}`);
  return stream;
}

function pointsOf(measurement: Measurement, result: Result, at_s: number): Point[] {
  const points = measurement.columns.flatMap(({ channel: id, time_s, values }, channel) => {
    const stream = streamOf(result, id);
    return [...time_s].flatMap((t, i) =>
      Number.isNaN(simulatedAt(stream, t + at_s)) ? [] : [{ channel, time_s: t + at_s, value: values[i]! }],
    );
  });
  if (points.length >= 10) return points;
  throw new BadInput([
    {
      severity: 'error',
      file: measurement.file,
      found: `${points.length} measured samples within the judged run`,
      expected: 'at least 10',
      mend: 'give --measured-at TIME, or a longer run by --set duration=TIME',
    },
  ]);
}

function rmsOf(residuals: Float64Array, points: readonly Point[], channel: number): number {
  let [sum, count] = [0, 0];
  points.forEach((point, i) => {
    if (point.channel !== channel) return;
    sum += residuals[i]! ** 2;
    count++;
  });
  return count === 0 ? 0 : Math.sqrt(sum / count);
}
