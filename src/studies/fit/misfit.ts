import { errorBands, reachOfRate_Hz } from '../../measured/errors.ts';
import { unitOfChannel } from '../../measured/measured-unit.ts';
import type { MeasuredColumn } from '../../measured/measurement.ts';
import { roundingOf } from '../../measured/noise.ts';
import {
  type Beyond,
  beyondAccuracy,
  beyondInBoth,
  type Scale,
  scaleOf,
  scaleWords,
} from '../../measured/scale.ts';
import { accuracyOf, allowedBias } from '../../measured/sensor/accuracy.ts';
import { whitenessOf } from '../../measured/whiteness.ts';
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

/** Channels whose rest is not noise, worst first; `before`: what the present values left. */
export function misfitsOf(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  { left, before }: { readonly left: Float64Array; readonly before: Float64Array },
  columns: readonly MisfitColumn[],
): Misfit[] {
  const misfits = columns.flatMap(({ channel, sensor }, c): Misfit[] => {
    const chosen = points.flatMap((point, i) => (point.channel === c ? [i] : []));
    const rest = Float64Array.from(chosen, (i) => left[i]!);
    const time_s = chosen.map((i) => points[i]!.time_s);
    const measured = Float64Array.from(chosen, (i) => points[i]!.value);
    const rounding = roundingOf(measured) / noise[c]!;
    const { isNoise, excess_ratio, signs } = whitenessOf(rest, { noise: 1, rounding }, null);
    if (isNoise) return [];
    const simulatedBy = (e: Float64Array): Float64Array =>
      measured.map((value, k) => value - e[chosen[k]!]! * noise[c]!);
    return [
      {
        channel,
        excess_ratio,
        signs,
        band_Hz: bandOf(rest, time_s),
        moment_s: momentOf(rest, time_s),
        ...scaleIn(measured, [simulatedBy(left), simulatedBy(before)], { channel, sensor }),
      },
    ];
  });
  return misfits.sort((a, b) => b.excess_ratio - a.excess_ratio);
}

/** What a fit has bent its values for is no scale: gain and bias count where the present values show them as well. */
function scaleIn(
  measured: Float64Array,
  [found, present]: readonly [Float64Array, Float64Array],
  { channel, sensor }: { readonly channel: string; readonly sensor: MeasuredColumn['sensor'] },
): Pick<Misfit, 'scale' | 'scale_beyond'> {
  const unit = unitOfChannel(channel);
  const accuracy = accuracyOf(unit, sensor);
  const about = found.reduce((sum, s) => sum + s, 0) / found.length;
  const largest = measured.reduce((most, m) => Math.max(most, Math.abs(m)), 0);
  const allowed = allowedBias(accuracy, about, largest);
  const look = (simulated: Float64Array): readonly [Scale, Beyond] => {
    const scale = scaleOf(measured, simulated);
    return [scale, beyondAccuracy(scale, accuracy, allowed)];
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
