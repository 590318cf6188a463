import type { MeasuredUnit } from '../measured-unit.ts';
import type { Tolerance } from '../within-class.ts';
import type { Sensor } from './sensor.ts';

/** How far the readings of an instrument may be off by its class. */
export interface Accuracy {
  /** As a share of the reading, and of the range. */
  readonly gain_ratio: number;
  readonly bias_ratio: number;
  /** Largest value that it can show; null where it is not stated. */
  readonly range: number | null;
}

/** What is allowed where no sensor is declared, by what it reads. Assumed: common practice, no source. */
const usual: Readonly<Record<MeasuredUnit, Omit<Accuracy, 'range'>>> = {
  V: { gain_ratio: 0.002, bias_ratio: 0 },
  A: { gain_ratio: 0.01, bias_ratio: 0.002 },
  W: { gain_ratio: 0.01, bias_ratio: 0.002 },
  ratio: { gain_ratio: 0.01, bias_ratio: 0.002 },
};

export function accuracyOf(unit: MeasuredUnit, sensor: Sensor | undefined): Accuracy {
  return sensor ?? { ...usual[unit], range: null };
}

/** How far readings about a value may all be off; of a range that is not stated the largest reading stands for it. */
export function allowedBias(
  { range, gain_ratio, bias_ratio }: Accuracy,
  about: number,
  largest: number,
): number {
  return gain_ratio * Math.abs(about) + bias_ratio * (range ?? largest);
}

/**
 * A class as standard deviations about such readings: anywhere within it is as likely, ± a is a/√3 (JCGM 100:2008, 4.3.7).
 * With noise and other classes these add as squares, and 1.96 of the sum is 95 % (its G.2); where one class outweighs all
 * the rest, 1.13 a holds every truth. It is 95 % over all instruments of the class, not of one that stands at its edge.
 */
export function toleranceAbout(accuracy: Accuracy, values: Float64Array): Tolerance {
  const about = values.reduce((sum, value) => sum + value, 0) / values.length;
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return {
    gain_ratio: accuracy.gain_ratio / Math.sqrt(3),
    bias: allowedBias(accuracy, about, largest) / Math.sqrt(3),
  };
}
