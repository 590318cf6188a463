import { BadInput } from '../../base/problem.ts';
import type { Curves } from '../../measured/curve/curve.ts';
import type { Shown } from '../../measured/curve/shown.ts';
import { unitOfChannel } from '../../measured/measured-unit.ts';
import type { MeasuredColumn, Measurement } from '../../measured/measurement.ts';
import { noiseOf } from '../../measured/noise.ts';
import { accuracyOf, toleranceAbout } from '../../measured/sensor/accuracy.ts';
import { shownBy } from '../../measured/sensor/through-sensor.ts';
import type { Tolerance } from '../../measured/within-class.ts';

/** The place of the measurement in the run with the present values. */
export interface FirstPlace {
  readonly at_s: number;
  /** How far from there it is looked for [s]; 0: it is known. */
  readonly within_s: number;
  /** Clock of the run against that of the file, less 1, and its standard error. */
  readonly rate_ratio: number;
  readonly rate_error_ratio: number;
}

/** A sample that every run is compared at. */
export interface ResidualPoint {
  readonly channel: number;
  /** Its place in the column. */
  readonly row: number;
  /** On the clock of the run as the measurement was placed at first. */
  readonly time_s: number;
  readonly value: number;
}

export interface ReadChannel {
  readonly column: MeasuredColumn;
  readonly noise: number;
  readonly within: Tolerance;
  /** Its points among all. */
  readonly from: number;
  readonly to: number;
}

export interface Points {
  /** Channel by channel, each in the order of time. */
  readonly points: readonly ResidualPoint[];
  readonly channels: readonly ReadChannel[];
  /** From one stamp to the next of the fastest column, on average [s]. */
  readonly interval_s: number;
}

/**
 * Samples that hold a number and lie within the run wherever the place is looked for. `noise`: of each channel, where it is better known
 * than from its values alone.
 */
export function pointsOf(
  { columns }: Pick<Measurement, 'columns'>,
  first: Curves,
  { at_s, within_s, rate_ratio }: FirstPlace,
  noise: readonly number[] | null,
): Points {
  const points: ResidualPoint[] = [];
  const channels = columns.map((column, channel): ReadChannel => {
    const { time_s, values, sensor } = column;
    const shown = shownOf(first, column);
    const known = (t: number): boolean => !Number.isNaN(shown.at(t));
    const from = points.length;
    time_s.forEach((stamp_s, i) => {
      const t = at_s + (1 + rate_ratio) * stamp_s;
      if (Number.isNaN(values[i]!)) return;
      if (known(t - within_s) && known(t + within_s))
        points.push({ channel, row: i, time_s: t, value: values[i]! });
    });
    const read = values.filter((value) => !Number.isNaN(value));
    const within = toleranceAbout(accuracyOf(unitOfChannel(column.channel), sensor), read);
    const own = noise?.[channel] ?? noiseOf(values);
    return { column, noise: own, within, from, to: points.length };
  });
  return { points, channels, interval_s: intervalOf(columns) };
}

const leastPoints = 10;

/** From one stamp to the next of the fastest column, on average [s]. */
export function intervalOf(columns: Measurement['columns']): number {
  return Math.min(...columns.map(({ time_s }) => (time_s.at(-1)! - time_s[0]!) / time_s.length));
}

/** As the column's sensor shows it. */
export function shownOf({ of, window }: Curves, { channel, sensor }: MeasuredColumn): Shown {
  const curve = of.get(channel);
  if (curve === undefined) throw new RangeError(`no curve of ${channel}`);
  return shownBy(sensor, curve, window);
}

/** Throws BadInput where too few samples are left to fit anything to. */
export function refuseFew(
  { length: found }: Points['points'],
  { file, warnings: [warning] }: Measurement,
): void {
  if (found >= leastPoints) return;
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: `${found} measured samples within the judged run${warning === undefined ? '' : `. ${warning}`}`,
      expected: `at least ${leastPoints}`,
      mend: 'give --measured-at TIME, or a longer run by --set duration=TIME',
    },
  ]);
}
