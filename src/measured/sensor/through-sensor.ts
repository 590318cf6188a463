/**
 * A simulated curve as an instrument shows it. What was measured has been through the instrument already; the
 * simulated channel goes through the same before the two are compared, so that neither a lost steady part nor a mean over
 * a window counts as an error of the model.
 *
 * One pole against a curve that is straight over h is exact: with slope b, y(t + h) = x(t + h) − b τ + (y(t) − x(t) + b τ) e^(−h/τ).
 * Where a line is long beside τ, points are put in between, close at its beginning, where y still bends. Filters begin
 * settled on the first value: the run was steady before it began as far as anyone knows.
 */
import { exponential } from '../../base/exponential.ts';
import { Growing } from '../../engine/meters/growing.ts';
import type { Curve, Curves } from '../curve/curve.ts';
import { Shown } from '../curve/shown.ts';
import type { Sensor } from './sensor.ts';

type Line = Pick<Curve, 'time_s' | 'values'>;

/** Places of points within a line, over τ: y lies within 0.03 % of its way from the straight line between two of them. */
const between = [...evenly(0, 2, 0.05), ...evenly(2, 4, 0.1), ...evenly(4, 8, 0.25)];

/** As the instrument shows it, or at its instants where none is declared. */
export function shownBy(sensor: Sensor | undefined, curve: Curve, window: Curves['window']): Shown {
  if (sensor === undefined) return new Shown(curve, 0, window);
  const { low_corner_Hz, corner_Hz, averaging_s } = sensor;
  let seen: Line = curve;
  if (low_corner_Hz !== null) seen = withoutSteadyPart(seen, low_corner_Hz);
  if (corner_Hz !== null) seen = lowPassed(seen, corner_Hz);
  return new Shown(seen, averaging_s, window);
}

function withoutSteadyPart(x: Line, corner_Hz: number): Line {
  const fine = withPoints(x, tauOf(corner_Hz));
  const steady = settledPole(fine, tauOf(corner_Hz));
  return {
    time_s: fine.time_s,
    values: fine.values.map((value, k) => value - steady[k]!),
  };
}

function lowPassed(x: Line, corner_Hz: number): Line {
  const fine = withPoints(x, tauOf(corner_Hz));
  return { time_s: fine.time_s, values: settledPole(fine, tauOf(corner_Hz)) };
}

/** One pole's output at each point. */
function settledPole({ time_s, values }: Line, tau: number): Float64Array {
  const y = new Float64Array(values.length);
  y[0] = values[0]!;
  for (let k = 1; k < values.length; k++) {
    const h = time_s[k]! - time_s[k - 1]!;
    const lag = ((values[k]! - values[k - 1]!) / h) * tau;
    y[k] = values[k]! - lag + (y[k - 1]! - values[k - 1]! + lag) * exponential(-h / tau);
  }
  return y;
}

/** The same lines with points in between where they are long beside τ. */
function withPoints({ time_s, values }: Line, tau: number): Line {
  const [times, out] = [new Growing(time_s.length), new Growing(time_s.length)];
  for (let k = 0; k < time_s.length; k++) {
    const [t0, v0] = [time_s[k - 1] ?? Number.NaN, values[k - 1] ?? Number.NaN];
    const run = k === 0 ? 0 : time_s[k]! - t0;
    for (let j = 0; j < between.length && between[j]! * tau < run; j++) {
      times.push(t0 + between[j]! * tau);
      out.push(v0 + ((values[k]! - v0) * between[j]! * tau) / run);
    }
    times.push(time_s[k]!);
    out.push(values[k]!);
  }
  return { time_s: times.values(), values: out.values() };
}

function tauOf(corner_Hz: number): number {
  return 1 / (2 * Math.PI * corner_Hz);
}

function evenly(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.round((to - from) / step) }, (_, k) => from + (k + 1) * step);
}
