/**
 * Gain and bias of a measured channel against the model at its place: m − m̄ = b (s − s̄) + e. The gain is that of
 * the swing, b; the bias is m̄ − s̄. Intervals are of 95 % and count the memory of what is left: residuals that are
 * alike from sample to sample are worth fewer samples. Rounding to the grid of a file, ± q/2 on every sample, may go along
 * with the swing: it adds all that it can, q/2 to the bias and q/2 Σ|s − s̄|/Σ(s − s̄)² to the gain.
 */
import { numberText } from '../analysis/words/number-text.ts';
import { formatPercent } from '../base/quantity.ts';
import { roundingOf } from './rounding.ts';
import type { Accuracy } from './sensor/accuracy.ts';
import { memoryOf } from './whiteness.ts';

export interface Scale {
  /** null where the model does not swing. */
  readonly gain_ratio: number | null;
  readonly gain_interval: readonly [number, number] | null;
  readonly bias: number;
  readonly bias_interval: readonly [number, number];
}

/** 95 % of a normal number lies within so many deviations. */
const within95 = 1.96;

export function scaleOf(measured: Float64Array, simulated: Float64Array): Scale {
  const n = measured.length;
  const [mean_m, mean_s] = [meanOf(measured), meanOf(simulated)];
  let [ss, sm, swing] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const s = simulated[i]! - mean_s;
    ss += s * s;
    swing += Math.abs(s);
    sm += s * (measured[i]! - mean_m);
  }
  const swings = ss > 1e-18 * n * mean_s * mean_s && ss > 0;
  const gain = swings ? sm / ss : 1;
  const left = measured.map((m, i) => m - mean_m - gain * (simulated[i]! - mean_s));
  const square = left.reduce((sum, e) => sum + e * e, 0) / Math.max(1, n - 2);
  const variance = square * (square > 0 ? memoryOf(left, square) : 1);
  const rounding = roundingOf(measured).step / 2;
  const gainHalf = within95 * Math.sqrt(variance / ss) + (rounding * swing) / ss;
  const biasHalf = within95 * Math.sqrt(variance / n) + rounding;
  const bias = mean_m - mean_s;
  return {
    gain_ratio: swings ? gain : null,
    gain_interval: swings ? [gain - gainHalf, gain + gainHalf] : null,
    bias,
    bias_interval: [bias - biasHalf, bias + biasHalf],
  };
}

/** What of a scale its instrument does not explain. */
export interface Beyond {
  readonly gain: boolean;
  readonly bias: boolean;
}

/**
 * Beyond with all of its interval: what noise leaves open is not held against an instrument. `deviates`: half width of the
 * interval that is looked at, in standard deviations.
 */
export function beyondAccuracy(
  { gain_interval, bias_interval }: Scale,
  { gain_ratio }: Accuracy,
  allowed_bias: number,
  deviates: number = within95,
): Beyond {
  const least = ([low, high]: readonly [number, number], right: number): number => {
    const wider = ((deviates / within95 - 1) * (high - low)) / 2;
    return leastOf(low - wider - right, high + wider - right);
  };
  return {
    gain: gain_interval !== null && least(gain_interval, 1) > gain_ratio,
    bias: least(bias_interval, 0) > allowed_bias,
  };
}

/** What is beyond in two looks at the same channel, and to the same side. */
export function beyondInBoth(
  [one, oneBeyond]: readonly [Scale, Beyond],
  [other, otherBeyond]: readonly [Scale, Beyond],
): Beyond {
  const same = (a: number, b: number): boolean => Math.sign(a) === Math.sign(b);
  return {
    gain: oneBeyond.gain && otherBeyond.gain && same((one.gain_ratio ?? 1) - 1, (other.gain_ratio ?? 1) - 1),
    bias: oneBeyond.bias && otherBeyond.bias && same(one.bias, other.bias),
  };
}

/** Smallest magnitude between two ends; 0 where they stand on both sides of 0. */
function leastOf(low: number, high: number): number {
  return low * high <= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
}

/** Gain and bias with their intervals, as far as the instrument does not explain them, in words; null where it does. */
export function scaleWords(
  scale: Scale,
  unit: string,
  accuracy: Accuracy,
  allowed_bias: number,
  beyond: Beyond = beyondAccuracy(scale, accuracy, allowed_bias),
): string | null {
  const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
  const { gain_ratio, gain_interval, bias, bias_interval } = scale;
  const found = [
    beyond.gain && gain_ratio !== null && gain_interval !== null
      ? `a gain of ${ratioText(gain_ratio)} (${ratioText(gain_interval[0])} to ${ratioText(gain_interval[1])}; ± ${formatPercent(accuracy.gain_ratio, 2)} allowed)`
      : '',
    beyond.bias
      ? `a bias of ${text(bias)} (${text(bias_interval[0])} to ${text(bias_interval[1])}; ± ${text(allowed_bias)} allowed)`
      : '',
  ].filter((part) => part !== '');
  return found.length === 0 ? null : found.join(' and ');
}

function ratioText(ratio: number): string {
  return ratio.toFixed(4);
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
