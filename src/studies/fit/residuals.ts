import type { Curves } from '../../measured/curve/curve.ts';
import type { Shown } from '../../measured/curve/shown.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { centred, dot, keptOf, openTo } from '../../measured/within-class.ts';
import { type FirstPlace, pointsOf, type ReadChannel, type ResidualPoint, shownOf } from './points.ts';

/**
 * Measured less simulated over the noise of each channel, at the same samples for every run, as far as gain and bias within
 * the class of its instrument do not explain it: the likelihood by which a measurement is placed (`within-class.ts`).
 */
export interface Residuals {
  readonly noise: readonly number[];
  readonly points: readonly ResidualPoint[];
  /** Where a run agrees best with the measurement; `rate_ratio`: with the clock of the run so much faster than as placed, less 1. */
  of(curves: Curves, rate_ratio?: number): Placed;
  /** What the sensors show of a run at the points; NaN where it ends before. */
  simulated(curves: Curves, later_s: number): Float64Array;
  /** How far a place can be moved, either way, until the sum of squares has grown to `most` [s]; null: as far as is looked. */
  open_s(curves: Curves, from: Placed, most: number): number | null;
  /** Time from the first stamp to the middle of what shows the place [s]: by it a wrong clock moves the place. */
  lever_s(curves: Curves, at: Placed): number;
}

export interface Placed {
  readonly left: Float64Array;
  /** How much later than placed at first the measurement agrees best with this run [s]. */
  readonly later_s: number;
  /** It would lie farther off than is looked. */
  readonly atEnd: boolean;
}

interface Moved {
  readonly later_s: number;
  readonly rate_ratio: number;
}

/** Where a run ends before the measurement does, its sample is no better than this, over the noise. */
const noAnswer = 1e3;
/** Places that are tried in an interval to see how far one may be moved; at most so many on either side. */
const placesPerInterval = 100;
const mostPlaces = 2000;
const mostRounds = 12;

/**
 * Where the place was found by comparing, and not given, it belongs to what is fitted: a model with other parameters
 * lies elsewhere. Each run is compared where it agrees best, near the first place; samples that could leave the run by
 * that are left out.
 */
export function residualsOf(
  measurement: Measurement,
  first: Curves,
  place: FirstPlace,
  noise: readonly number[] | null = null,
): Residuals {
  const { within_s } = place;
  const { points, channels, interval_s } = pointsOf(measurement, first, place, noise);
  const shownBySensors = (curves: Curves): Shown[] => channels.map(({ column }) => shownOf(curves, column));

  /** Time of the run of a point whose measurement lies so much later, on a clock that is so much faster. */
  const when = ({ time_s }: ResidualPoint, { later_s, rate_ratio }: Moved): number =>
    time_s + later_s + rate_ratio * (time_s - place.at_s);

  const swingAt = ({ from, to, noise, within }: ReadChannel, shown: Shown, moved: Moved) => {
    const part = points.slice(from, to);
    const simulated = Float64Array.from(part, (point) => shown.at(when(point, moved)));
    const x = centred(simulated.map((s, i) => (Number.isNaN(s) ? part[i]!.value : s)));
    return { simulated, x, kept: keptOf({ xx: dot(x, x), n: x.length }, noise * noise, within) };
  };
  const leftAt = (shown: readonly Shown[], moved: Moved): Float64Array => {
    const left = new Float64Array(points.length);
    channels.forEach((channel, c) => {
      const { simulated, x, kept } = swingAt(channel, shown[c]!, moved);
      const off = simulated.map((s, i) => (Number.isNaN(s) ? 0 : points[channel.from + i]!.value - s));
      openTo(off, x, kept).forEach((e, i) => {
        left[channel.from + i] = Number.isNaN(simulated[i]!) ? noAnswer : e / channel.noise;
      });
    });
    return left;
  };
  /** What of a move by a second is left of gain and bias, over the noise. */
  const byPlace = (shown: readonly Shown[], moved: Moved): Float64Array => {
    const all = new Float64Array(points.length);
    channels.forEach((channel, c) => {
      const { x, kept } = swingAt(channel, shown[c]!, moved);
      const slope = x.map((_, i) => {
        const rise = shown[c]!.slope(when(points[channel.from + i]!, moved), interval_s / 4);
        return Number.isNaN(rise) ? 0 : rise / channel.noise;
      });
      all.set(openTo(slope, x, kept), channel.from);
    });
    return all;
  };
  return {
    noise: channels.map(({ noise }) => noise),
    points,
    simulated(curves, later_s) {
      const shown = shownBySensors(curves);
      return Float64Array.from(points, ({ channel, time_s }) => shown[channel]!.at(time_s + later_s));
    },
    open_s(curves, { later_s }, most) {
      const shown = shownBySensors(curves);
      const step_s = Math.max(interval_s / placesPerInterval, within_s / mostPlaces);
      const steps = Math.floor(within_s / step_s + 1e-9);
      let farthest_s = step_s;
      for (let k = -steps; k <= steps; k++) {
        if (sumOf(leftAt(shown, { later_s: k * step_s, rate_ratio: 0 })) > most) continue;
        if (Math.abs(k) === steps) return null;
        farthest_s = Math.max(farthest_s, Math.abs(k * step_s - later_s));
      }
      return farthest_s;
    },
    lever_s(curves, { later_s }) {
      const slopes = byPlace(shownBySensors(curves), { later_s, rate_ratio: 0 });
      const weighed = slopes.reduce((sum, g, i) => sum + g * g * (points[i]!.time_s - place.at_s), 0);
      return weighed / dot(slopes, slopes);
    },
    of(curves, rate_ratio = 0) {
      const shown = shownBySensors(curves);
      const at = (later_s: number): Placed => {
        const atEnd = within_s > 0 && Math.abs(later_s) >= within_s;
        return { left: leftAt(shown, { later_s, rate_ratio }), later_s, atEnd };
      };
      let placed = at(0);
      for (let round = 0; round < mostRounds && within_s > 0; round++) {
        const { left, later_s } = placed;
        const slopes = byPlace(shown, { later_s, rate_ratio });
        const step_s = dot(slopes, left) / dot(slopes, slopes);
        if (!Number.isFinite(step_s)) break;
        let next: Placed | null = null;
        for (let share = 1; share > 0.1 && next === null; share /= 3) {
          const tried = at(Math.min(within_s, Math.max(-within_s, later_s + share * step_s)));
          if (sumOf(tried.left) < sumOf(left)) next = tried;
        }
        if (next === null) break;
        placed = next;
        if (Math.abs(next.later_s - later_s) < 1e-8) break;
      }
      return placed;
    },
  };
}

export function sumOf(left: Float64Array): number {
  return dot(left, left);
}
