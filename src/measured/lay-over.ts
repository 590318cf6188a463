import type { MeasuredChannel, MeasuredReport } from '../analysis/judge/report.ts';
import { evenSamples } from '../samples/even.ts';
import type { Curves } from './curve/curve.ts';
import type { Shown } from './curve/shown.ts';
import { errorBands } from './errors.ts';
import { intervalBetween } from './interval.ts';
import { unitOfChannel } from './measured-unit.ts';
import type { MeasuredColumn, Measurement, StatedTime } from './measurement.ts';
import { mistakenColumns } from './mistaken-columns.ts';
import { pairsOf } from './pair.ts';
import { type Placing, placing } from './placing.ts';
import { scaleOf, scaleWords } from './scale.ts';
import { accuracyOf, allowedBias } from './sensor/accuracy.ts';
import { shownBy } from './sensor/through-sensor.ts';

/** Points that a trace keeps for drawing. */
const drawn = 2000;

/**
 * Lays a measurement over a run: finds its place in time by all channels (or takes the one stated), then compares every
 * channel, at the measured stamps less what the clock of the file is off, with what its sensor would have shown of the
 * run at these stamps; an instrument that is not declared shows instants. From the end of the warm-up on.
 */
export function layOver(measurement: Measurement, curves: Curves, stated: StatedTime): MeasuredReport {
  const { columns, file, sha256 } = measurement;
  const shownOf = new Map(
    columns.flatMap(({ channel, sensor }) => {
      const curve = curves.of.get(channel);
      return curve === undefined ? [] : [[channel, shownBy(sensor, curve, curves.window)]];
    }),
  );
  const placed = placing(pairsOf(columns, shownOf), stated);
  const remarks = [...measurement.remarks];
  const channels: MeasuredChannel[] = [];
  const warnings = [...measurement.warnings, ...mistakenColumns(columns, curves), ...placed.warnings];
  for (const column of columns) {
    const shown = shownOf.get(column.channel);
    const compared = shown === undefined ? null : compare(onRunsClock(column, placed), shown, placed.at_s);
    if (compared === null) {
      const why =
        shown !== undefined && !(shown.to_s > shown.from_s)
          ? 'its sensor averages over more than the judged run'
          : 'no measured sample lies within the judged run';
      remarks.push(`${column.channel}: ${why}.`);
      continue;
    }
    channels.push(compared);
    const doubt = placed.aligned === 'assumed' ? null : scaleDoubt(column, compared);
    if (doubt !== null) warnings.push(doubt);
  }
  return { file, sha256, ...placed, warnings, channels, remarks };
}

/** What of gain and bias the instrument's class does not explain. */
function scaleDoubt({ channel, sensor }: MeasuredColumn, compared: MeasuredChannel): string | null {
  const { unit, allowed_bias } = compared;
  const words = scaleWords(compared, unit, accuracyOf(unitOfChannel(channel), sensor), allowed_bias);
  if (words === null) return null;
  const by = sensor === undefined ? 'a usual instrument' : `its ${sensor.kind}`;
  return `${channel} has ${words}, more than ${by} explains (95 % intervals): its scale or its zero is off, or the model differs. Check it, or declare what measured it by --sensor.`;
}

/** The column with its stamps in seconds of the run. */
function onRunsClock(column: MeasuredColumn, { clock_rate_ratio }: Placing): MeasuredColumn {
  if (clock_rate_ratio === null) return column;
  return {
    ...column,
    time_s: column.time_s.map((t) => t * (1 + clock_rate_ratio)),
  };
}

function compare(column: MeasuredColumn, shown: Shown, place_s: number): MeasuredChannel | null {
  const { time_s, values } = column;
  const inside: {
    readonly t: number;
    readonly m: number;
    readonly s: number;
  }[] = [];
  for (let i = 0; i < time_s.length; i++) {
    const t = time_s[i]! + place_s;
    const s = shown.at(t);
    if (!Number.isNaN(s)) inside.push({ t, m: values[i]!, s });
  }
  if (inside.length < 2) return null;
  let [squares, peak, peak_s] = [0, 0, Number.NaN];
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { t, m, s } of inside) {
    const e = m - s;
    squares += e * e;
    if (Math.abs(e) > Math.abs(peak)) [peak, peak_s] = [e, t];
    low = Math.min(low, m);
    high = Math.max(high, m);
  }
  const interval_s = intervalBetween(time_s);
  const stamps = Float64Array.from(inside, ({ t }) => t);
  const measured = Float64Array.from(inside, ({ m }) => m);
  const simulated = Float64Array.from(inside, ({ s }) => s);
  const errors = measured.map((m, i) => m - simulated[i]!);
  const unit = unitOfChannel(column.channel);
  const about = simulated.reduce((sum, s) => sum + s, 0) / simulated.length;
  const largest = Math.max(Math.abs(low), Math.abs(high));
  const count = Math.floor((stamps.at(-1)! - stamps[0]!) / interval_s) + 1;
  return {
    channel: column.channel,
    column: column.column,
    unit,
    samples: inside.length,
    rate_Hz: 1 / interval_s,
    ...scaleOf(measured, simulated),
    rms: Math.sqrt(squares / inside.length),
    peak,
    peak_s: Number.isNaN(peak_s) ? inside[0]!.t : peak_s,
    swing: high - low,
    sensor: column.sensor?.kind ?? null,
    allowed_bias: allowedBias(accuracyOf(unit, column.sensor), about, largest),
    correlation_ratio: correlation(inside),
    bands: errorBands(evenSamples(stamps, errors, stamps[0]!, interval_s, count), 1 / interval_s),
    trace: traceOf(inside),
  };
}

function correlation(points: readonly { readonly m: number; readonly s: number }[]): number | null {
  const n = points.length;
  const mm = points.reduce((sum, { m }) => sum + m, 0) / n;
  const ms = points.reduce((sum, { s }) => sum + s, 0) / n;
  let [a, b, c] = [0, 0, 0];
  for (const { m, s } of points) {
    a += (m - mm) ** 2;
    b += (s - ms) ** 2;
    c += (m - mm) * (s - ms);
  }
  return a > 0 && b > 0 ? c / Math.sqrt(a * b) : null;
}

function traceOf(
  points: readonly {
    readonly t: number;
    readonly m: number;
    readonly s: number;
  }[],
) {
  const per = Math.max(1, Math.ceil(points.length / drawn));
  const trace = {
    time_s: [] as number[],
    low: [] as number[],
    high: [] as number[],
    simulated: [] as number[],
  };
  for (let i = 0; i < points.length; i += per) {
    const part = points.slice(i, i + per);
    const middle = part[part.length >> 1]!;
    trace.time_s.push(middle.t);
    trace.low.push(Math.min(...part.map(({ m }) => m)));
    trace.high.push(Math.max(...part.map(({ m }) => m)));
    trace.simulated.push(middle.s);
  }
  return trace;
}
