import { BadInput } from '../../base/problem.ts';
import type { Curves } from '../../measured/curve/curve.ts';
import type { Shown } from '../../measured/curve/shown.ts';
import type { MeasuredColumn, Measurement } from '../../measured/measurement.ts';
import { noiseOf } from '../../measured/noise.ts';
import { shownBy } from '../../measured/sensor/through-sensor.ts';

/** Measured less simulated over the noise of each channel, at the same samples for every run. */
export interface Residuals {
  readonly noise: readonly number[];
  /** Channel by channel, each in the order of time. */
  readonly points: readonly ResidualPoint[];
  of(curves: Curves): Placed;
  /** At the place as it was found at first: a bias moves a place that is fitted. */
  unmoved(curves: Curves): Float64Array;
  /** How far a place can be moved, either way, until the sum of squares has grown to `most` [s]. */
  reach_s(curves: Curves, from: Placed, most: number): number;
}

export interface ResidualPoint {
  readonly channel: number;
  /** On the clock of the run as the measurement was placed at first. */
  readonly time_s: number;
  readonly value: number;
}

export interface Placed {
  readonly left: Float64Array;
  /** How much later than placed at first the measurement agrees best with this run [s]. */
  readonly later_s: number;
}

/** Where a run ends before the measurement does, its sample is no better than this, over the noise. */
const noAnswer = 1e3;

/** How far a fit may move a place that was found, and how much of both ends it leaves free for that, in samples. */
const mostMoved = 5;
/** Places that are tried in an interval to see how far one may be moved. */
const placesPerInterval = 100;

/**
 * Where the place was found by comparing, and not given, it belongs to what is fitted: a model with other parameters
 * lies elsewhere. Each run is compared where it agrees best, near the first place.
 */
export function residualsOf(
  measurement: Measurement,
  first: Curves,
  at_s: number,
  given: boolean,
): Residuals {
  const noise = measurement.columns.map(({ values }) => noiseOf(values));
  const interval_s = Math.min(
    ...measurement.columns.map(({ time_s }) => (time_s.at(-1)! - time_s[0]!) / time_s.length),
  );
  const reach_s = given ? 0 : mostMoved * interval_s;
  const points = measurement.columns.flatMap(({ time_s, values }, channel) => {
    const shown = shownOf(first, measurement.columns[channel]!);
    const known = (t: number): boolean => !Number.isNaN(shown.at(t));
    return [...time_s].flatMap((t, i): ResidualPoint[] =>
      known(t + at_s - reach_s) && known(t + at_s + reach_s)
        ? [{ channel, time_s: t + at_s, value: values[i]! }]
        : [],
    );
  });
  if (points.length < 10) refuse(measurement.file, points.length);
  const at = (shown: readonly Shown[], later_s: number): Float64Array =>
    Float64Array.from(points, ({ channel, time_s, value }) => {
      const simulated = shown[channel]!.at(time_s + later_s);
      return Number.isNaN(simulated) ? noAnswer : (value - simulated) / noise[channel]!;
    });
  return {
    noise,
    points,
    unmoved: (curves) =>
      at(
        measurement.columns.map((column) => shownOf(curves, column)),
        0,
      ),
    reach_s(curves, { later_s }, most) {
      const shown = measurement.columns.map((column) => shownOf(curves, column));
      const step_s = interval_s / placesPerInterval;
      const steps = Math.round(reach_s / step_s);
      const within = Array.from({ length: 2 * steps + 1 }, (_, k) => Math.abs(k - steps) * step_s).filter(
        (_, k) => sumOf(at(shown, later_s + (k - steps) * step_s)) <= most,
      );
      return Math.max(step_s, ...within);
    },
    of(curves) {
      const shown = measurement.columns.map((column) => shownOf(curves, column));
      let placed: Placed = { left: at(shown, 0), later_s: 0 };
      if (given) return placed;
      for (let round = 0; round < 12; round++) {
        let [gg, ge] = [0, 0];
        points.forEach(({ channel, time_s }, i) => {
          const g = shown[channel]!.slope(time_s + placed.later_s, interval_s / 4) / noise[channel]!;
          if (Number.isNaN(g)) return;
          gg += g * g;
          ge += g * placed.left[i]!;
        });
        const next = Math.min(reach_s, Math.max(-reach_s, placed.later_s + ge / gg));
        if (!Number.isFinite(next) || Math.abs(next - placed.later_s) < 1e-8) break;
        const tried = { left: at(shown, next), later_s: next };
        if (sumOf(tried.left) >= sumOf(placed.left)) break;
        placed = tried;
      }
      return placed;
    },
  };
}

/** As the column's sensor shows it. */
function shownOf({ of, window }: Curves, { channel, sensor }: MeasuredColumn): Shown {
  const curve = of.get(channel);
  if (curve === undefined) throw new RangeError(`no curve of ${channel}`);
  return shownBy(sensor, curve, window);
}

export function sumOf(left: Float64Array): number {
  let sum = 0;
  for (const e of left) sum += e * e;
  return sum;
}

function refuse(file: string, found: number): never {
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: `${found} measured samples within the judged run`,
      expected: 'at least 10',
      mend: 'give --measured-at TIME, or a longer run by --set duration=TIME',
    },
  ]);
}
