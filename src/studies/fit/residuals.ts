import { BadInput } from '../../base/problem.ts';
import type { Curves } from '../../measured/curve/curve.ts';
import type { Shown } from '../../measured/curve/shown.ts';
import { unitOfChannel } from '../../measured/measured-unit.ts';
import type { MeasuredColumn, Measurement } from '../../measured/measurement.ts';
import { noiseOf } from '../../measured/noise.ts';
import { accuracyOf, toleranceAbout } from '../../measured/sensor/accuracy.ts';
import { shownBy } from '../../measured/sensor/through-sensor.ts';
import { centred, dot, type Kept, keptOf, openTo, type Tolerance } from '../../measured/within-class.ts';

/**
 * Measured less simulated over the noise of each channel, at the same samples for every run, as far as gain and bias within
 * the class of its instrument do not explain it: the likelihood by which a measurement is placed (`within-class.ts`).
 */
export interface Residuals {
  readonly noise: readonly number[];
  /** Channel by channel, each in the order of time. */
  readonly points: readonly ResidualPoint[];
  of(curves: Curves): Placed;
  /** What the sensors show of a run at the points; NaN where it ends before. */
  simulated(curves: Curves, later_s: number): Float64Array;
  /** What of a unit of gain, and of bias, of a channel is left. */
  ofScale(curves: Curves, later_s: number, channel: number): { gain: Float64Array; bias: Float64Array };
  /** How far a place can be moved, either way, until the sum of squares has grown to `most` [s]; null: as far as is looked. */
  open_s(curves: Curves, from: Placed, most: number): number | null;
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
  /** It would lie farther off than is looked. */
  readonly atEnd: boolean;
}

/** The place of the measurement in the run with the present values. */
export interface FirstPlace {
  readonly at_s: number;
  /** How far from there it is looked for [s]; 0: it is known. */
  readonly within_s: number;
}

/** Where a run ends before the measurement does, its sample is no better than this, over the noise. */
const noAnswer = 1e3;
/** Places that are tried in an interval to see how far one may be moved; at most so many on either side. */
const placesPerInterval = 100;
const mostPlaces = 2000;
const mostRounds = 12;

interface ReadChannel {
  readonly column: MeasuredColumn;
  readonly noise: number;
  readonly within: Tolerance;
  /** Its points among all. */
  readonly from: number;
  readonly to: number;
}

/**
 * Where the place was found by comparing, and not given, it belongs to what is fitted: a model with other parameters
 * lies elsewhere. Each run is compared where it agrees best, near the first place; samples that could leave the run by
 * that are left out.
 */
export function residualsOf(
  { file, columns }: Measurement,
  first: Curves,
  { at_s, within_s }: FirstPlace,
): Residuals {
  const interval_s = intervalOf(columns);
  const points: ResidualPoint[] = [];
  const channels = columns.map((column, channel): ReadChannel => {
    const { time_s, values, sensor } = column;
    const shown = shownOf(first, column);
    const known = (t: number): boolean => !Number.isNaN(shown.at(t));
    const from = points.length;
    time_s.forEach((t, i) => {
      if (known(t + at_s - within_s) && known(t + at_s + within_s))
        points.push({ channel, time_s: t + at_s, value: values[i]! });
    });
    const within = toleranceAbout(accuracyOf(unitOfChannel(column.channel), sensor), values);
    return { column, noise: noiseOf(values), within, from, to: points.length };
  });
  if (points.length < 10) refuse(file, points.length);

  const swingAt = ({ from, to, noise, within }: ReadChannel, shown: Shown, later_s: number) => {
    const part = points.slice(from, to);
    const simulated = Float64Array.from(part, ({ time_s }) => shown.at(time_s + later_s));
    const x = centred(simulated.map((s, i) => (Number.isNaN(s) ? part[i]!.value : s)));
    const kept: Kept = keptOf({ xx: dot(x, x), n: x.length }, noise * noise, within);
    return { simulated, x, kept };
  };
  const leftAt = (shown: readonly Shown[], later_s: number): Float64Array => {
    const left = new Float64Array(points.length);
    channels.forEach((channel, c) => {
      const { simulated, x, kept } = swingAt(channel, shown[c]!, later_s);
      const off = simulated.map((s, i) => (Number.isNaN(s) ? 0 : points[channel.from + i]!.value - s));
      const counted = openTo(off, x, kept).map((e) => e / channel.noise);
      left.set(
        counted.map((e, i) => (Number.isNaN(simulated[i]!) ? noAnswer : e)),
        channel.from,
      );
    });
    return left;
  };
  /** How much later Gauss and Newton would take it, by the slopes that gain and bias leave. */
  const stepAt = (shown: readonly Shown[], later_s: number, left: Float64Array): number => {
    let [gg, ge] = [0, 0];
    channels.forEach((channel, c) => {
      const { x, kept } = swingAt(channel, shown[c]!, later_s);
      const slope = Float64Array.from(x, (_, i) => {
        const rise = shown[c]!.slope(points[channel.from + i]!.time_s + later_s, interval_s / 4);
        return Number.isNaN(rise) ? 0 : rise / channel.noise;
      });
      openTo(slope, x, kept).forEach((g, i) => {
        gg += g * g;
        ge += g * left[channel.from + i]!;
      });
    });
    return ge / gg;
  };
  const shownBySensors = (curves: Curves): Shown[] => columns.map((column) => shownOf(curves, column));
  return {
    noise: channels.map(({ noise }) => noise),
    points,
    simulated(curves, later_s) {
      const shown = shownBySensors(curves);
      return Float64Array.from(points, ({ channel, time_s }) => shown[channel]!.at(time_s + later_s));
    },
    ofScale(curves, later_s, c) {
      const channel = channels[c]!;
      const { x, kept } = swingAt(channel, shownBySensors(curves)[c]!, later_s);
      const among = (values: Float64Array): Float64Array => {
        const all = new Float64Array(points.length);
        all.set(
          openTo(values, x, kept).map((e) => e / channel.noise),
          channel.from,
        );
        return all;
      };
      return { gain: among(x), bias: among(x.map(() => 1)) };
    },
    open_s(curves, { later_s }, most) {
      const shown = shownBySensors(curves);
      const step_s = Math.max(interval_s / placesPerInterval, within_s / mostPlaces);
      const steps = Math.floor(within_s / step_s + 1e-9);
      let farthest = 1;
      for (let k = -steps; k <= steps; k++) {
        const at_s = k * step_s;
        if (sumOf(leftAt(shown, at_s)) <= most)
          farthest = Math.max(
            farthest,
            Math.abs(k) === steps ? Number.POSITIVE_INFINITY : Math.abs(at_s - later_s) / step_s,
          );
      }
      return Number.isFinite(farthest) ? farthest * step_s : null;
    },
    of(curves) {
      const shown = shownBySensors(curves);
      const at = (later_s: number): Placed => {
        const atEnd = within_s > 0 && Math.abs(later_s) >= within_s;
        return { left: leftAt(shown, later_s), later_s, atEnd };
      };
      let placed = at(0);
      for (let round = 0; round < mostRounds && within_s > 0; round++) {
        const step_s = stepAt(shown, placed.later_s, placed.left);
        if (!Number.isFinite(step_s)) break;
        let next: Placed | null = null;
        for (let share = 1; share > 0.1 && next === null; share /= 3) {
          const later_s = Math.min(within_s, Math.max(-within_s, placed.later_s + share * step_s));
          const tried = at(later_s);
          if (sumOf(tried.left) < sumOf(placed.left)) next = tried;
        }
        if (next === null) break;
        const moved = Math.abs(next.later_s - placed.later_s);
        placed = next;
        if (moved < 1e-8) break;
      }
      return placed;
    },
  };
}

/** Shortest of the intervals between the stamps of a column, on average [s]. */
export function intervalOf(columns: Measurement['columns']): number {
  return Math.min(...columns.map(({ time_s }) => (time_s.at(-1)! - time_s[0]!) / time_s.length));
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
