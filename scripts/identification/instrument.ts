/**
 * What an instrument shows of a run, from its rows at every step by plain sums: a second way beside the project's own
 * (`src/measured/curve/`, `src/measured/sensor/`), so that a fault there is not in the benches as well.
 */
import type { Sensor } from '../../src/measured/sensor/sensor.ts';
import type { Rows } from './every-step.ts';

/** Steps in which a filter is taken, over its time constant. */
const filterStep = 1 / 200;

/** Reading at a time of the run: the value, through a pole where the sensor has a corner, and its mean up to then. */
export function readingOf(
  rows: Rows,
  channel: string,
  sensor: Sensor | undefined,
): (time_s: number) => number {
  const c = rows.channels.indexOf(channel);
  if (c < 0) throw new RangeError(`no rows of ${channel}`);
  const { corner_Hz = null, low_corner_Hz = null, averaging_s = 0 } = sensor ?? {};
  if (low_corner_Hz !== null) throw new RangeError('a low corner is read by no bench');
  const [time_s, values] =
    corner_Hz === null ? [rows.time_s, rows.values[c]!] : filtered(rows.time_s, rows.values[c]!, corner_Hz);
  return averaging_s === 0
    ? (t) => valueAt(time_s, values, t)
    : (t) => areaOf(time_s, values, t - averaging_s, t) / averaging_s;
}

/** y' = (x − y)/τ in small steps of the midpoint's x. */
function filtered(time_s: readonly number[], x: readonly number[], corner_Hz: number): [number[], number[]] {
  const tau = 1 / (2 * Math.PI * corner_Hz);
  const end_s = time_s.at(-1)!;
  const count = Math.ceil(end_s / (filterStep * tau));
  const h = end_s / count;
  const decay = Math.exp(-h / tau);
  const [times, y] = [[0], [x[0]!]];
  let row = 1;
  for (let k = 1; k <= count; k++) {
    const t = (k - 0.5) * h;
    while (row < time_s.length - 1 && time_s[row]! < t) row++;
    const along = (t - time_s[row - 1]!) / (time_s[row]! - time_s[row - 1]!);
    const middle = x[row - 1]! + along * (x[row]! - x[row - 1]!);
    times.push(k * h);
    y.push(middle + (y[k - 1]! - middle) * decay);
  }
  return [times, y];
}

function rowBefore(time_s: readonly number[], t: number): number {
  let [low, high] = [0, time_s.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (time_s[middle]! <= t) low = middle;
    else high = middle;
  }
  return low;
}

function valueAt(time_s: readonly number[], values: readonly number[], t: number): number {
  const k = rowBefore(time_s, t);
  const along = (t - time_s[k]!) / (time_s[k + 1]! - time_s[k]!);
  return values[k]! + along * (values[k + 1]! - values[k]!);
}

/** Trapezium by trapezium, from the first time to the second. */
function areaOf(time_s: readonly number[], values: readonly number[], from_s: number, to_s: number): number {
  let area = 0;
  let [t0, v0] = [from_s, valueAt(time_s, values, from_s)];
  for (let k = rowBefore(time_s, from_s) + 1; k < time_s.length && time_s[k]! < to_s; k++) {
    area += ((v0 + values[k]!) / 2) * (time_s[k]! - t0);
    [t0, v0] = [time_s[k]!, values[k]!];
  }
  return area + ((v0 + valueAt(time_s, values, to_s)) / 2) * (to_s - t0);
}
