import { errorBands, reachOfRate_Hz } from '../../measured/errors.ts';
import { unitOfChannel } from '../../measured/measured-unit.ts';
import type { MeasuredColumn } from '../../measured/measurement.ts';
import { roundingOf } from '../../measured/rounding.ts';
import {
  type Beyond,
  beyondAccuracy,
  beyondInBoth,
  type Scale,
  scaleOf,
  scaleWords,
} from '../../measured/scale.ts';
import { accuracyOf, allowedBias } from '../../measured/sensor/accuracy.ts';
import { seldom, type Whiteness, whitenessOf } from '../../measured/whiteness.ts';
import { clippedAt, clippedWords } from './clipped.ts';
import type { Residuals } from './residuals.ts';

/** What the rest of a channel looks like where it is not noise. */
export interface Misfit {
  readonly channel: string;
  /** RMS of the rest over the channel's noise. */
  readonly excess_ratio: number;
  /** How it differs from noise, in words. */
  readonly signs: readonly string[];
  /** Band with most of it, up to what the measurement reaches [Hz]; null where the measurement is too short to tell. */
  readonly band_Hz: readonly [number, number] | null;
  /** Time of the run about which it is largest [s]. */
  readonly moment_s: number;
  /** Gain and bias of the channel against the model, and in words what of them its instrument does not explain. */
  readonly scale: Scale;
  readonly scale_beyond: string | null;
}

type MisfitColumn = Pick<MeasuredColumn, 'channel' | 'sensor'>;

/** What is left, and what the sensors show with the values found and with the present ones, at every point. */
export interface LeftOver {
  readonly left: Float64Array;
  readonly found: Float64Array;
  readonly present: Float64Array;
}

/** Whether what is left of each channel is noise, as far as its file was not rounded. */
export function whitenessByChannel(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  left: Float64Array,
): Whiteness[] {
  return noise.map((deviation, c) => {
    const part = partOf(points, c);
    const { step, least } = roundingOf(measuredIn(points, part));
    const rounding = { step: step / deviation, least: least / deviation };
    return whitenessOf(chosen(left, part), { noise: 1, rounding }, null);
  });
}

/** Channels whose rest is not noise, or whose scale their instrument does not explain; worst first. */
export function misfitsOf(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  over: LeftOver,
  whiteness: readonly Whiteness[],
  columns: readonly MisfitColumn[],
): Misfit[] {
  const misfits = columns.flatMap((column, c): Misfit[] => {
    const { isNoise, excess_ratio, signs } = whiteness[c]!;
    const part = partOf(points, c);
    const measured = measuredIn(points, part);
    const [found, present] = [chosen(over.found, part), chosen(over.present, part)];
    const scale = scaleIn(measured, found, present, column);
    if (isNoise && scale.scale_beyond === null) return [];
    const clipped = clippedAt(measured, found, noise[c]!) ?? clippedAt(measured, present, noise[c]!);
    const rest = chosen(over.left, part);
    const time_s = part.map((i) => points[i]!.time_s);
    const { channel } = column;
    return [
      {
        channel,
        excess_ratio,
        signs: clipped === null ? signs : [clippedWords(clipped, unitOfChannel(channel)), ...signs],
        band_Hz: bandOf(rest, time_s),
        moment_s: momentOf(rest, time_s),
        ...scale,
      },
    ];
  });
  return misfits.sort((a, b) => b.excess_ratio - a.excess_ratio);
}

function partOf(points: Residuals['points'], channel: number): number[] {
  return points.flatMap((point, i) => (point.channel === channel ? [i] : []));
}

function chosen(values: Float64Array, part: readonly number[]): Float64Array {
  return Float64Array.from(part, (i) => values[i]!);
}

function measuredIn(points: Residuals['points'], part: readonly number[]): Float64Array {
  return Float64Array.from(part, (i) => points[i]!.value);
}

/** What a fit has bent its values for is no scale: gain and bias count where the present values show them as well. */
function scaleIn(
  measured: Float64Array,
  found: Float64Array,
  present: Float64Array,
  { channel, sensor }: MisfitColumn,
): Pick<Misfit, 'scale' | 'scale_beyond'> {
  const unit = unitOfChannel(channel);
  const accuracy = accuracyOf(unit, sensor);
  const about = found.reduce((sum, s) => sum + s, 0) / found.length;
  const largest = measured.reduce((most, m) => Math.max(most, Math.abs(m)), 0);
  const allowed = allowedBias(accuracy, about, largest);
  const look = (simulated: Float64Array): readonly [Scale, Beyond] => {
    const scale = scaleOf(measured, simulated);
    return [scale, beyondAccuracy(scale, accuracy, allowed, seldom)];
  };
  const [now, before] = [look(found), look(present)];
  return {
    scale: now[0],
    scale_beyond: scaleWords(now[0], unit, accuracy, allowed, beyondInBoth(now, before)),
  };
}

function bandOf(rest: Float64Array, time_s: readonly number[]): readonly [number, number] | null {
  const rate_Hz = (time_s.length - 1) / (time_s.at(-1)! - time_s[0]!);
  const bands = errorBands(rest, rate_Hz).filter(({ rms }) => rms !== null);
  if (bands.length === 0) return null;
  const { low_Hz, high_Hz } = bands.reduce((a, b) => (b.rms! > a.rms! ? b : a));
  return [low_Hz, Math.min(high_Hz, reachOfRate_Hz(rate_Hz))];
}

/** Middle of the stretch, a thirtieth of all, with the largest sum of squares. */
function momentOf(rest: Float64Array, time_s: readonly number[]): number {
  const length = Math.max(1, Math.round(rest.length / 30));
  let [sum, most, at] = [0, -1, 0];
  for (let i = 0; i < rest.length; i++) {
    sum += rest[i]! ** 2 - (i >= length ? rest[i - length]! ** 2 : 0);
    if (sum > most) [most, at] = [sum, i];
  }
  return time_s[Math.max(0, at - (length >> 1))]!;
}
