/**
 * Line current rebuilt from the power: i(t) = √2 I(t) cos(ω t), I = P/(√3 V_LL PF).
 * The averaged models know the power's envelope only: harmonics that a rectifier draws of its own are not in it.
 * What is in it are the side bands that a moving load puts around the fundamental.
 */
import { cosineOfTurns } from '../../base/sine.ts';
import { roundOf } from '../signal/round.ts';
import { type Samples, through } from '../signal/samples.ts';

export interface LineCurrent {
  readonly line_Hz: number;
  readonly line_voltage_V: number;
  readonly power_factor_ratio: number;
}

/** RMS current per phase per watt [A/W]. */
export function amperesPerWatt(line: LineCurrent): number {
  return 1 / (Math.sqrt(3) * line.line_voltage_V * line.power_factor_ratio);
}

/** Samples of the line current, phase 0 at the first one. */
export function lineCurrent(power_W: Samples, rate_Hz: number, line: LineCurrent): Samples {
  const amplitude = Math.SQRT2 * amperesPerWatt(line);
  const turns = line.line_Hz / rate_Hz;
  const round = roundOf(turns);
  return through(power_W, (stretch, first) => modulate(stretch, first, { amplitude, turns, round }));
}

interface Carrier {
  readonly amplitude: number;
  /** Turns of a sample, and the waves of one whole round of them, where it closes. */
  readonly turns: number;
  readonly round: Float64Array | null;
}

/** Puts samples, the first of them number `first`, on the carrier. */
function modulate(samples: Float64Array, first: number, { amplitude, turns, round }: Carrier): void {
  for (let j = 0; j < samples.length; j++) {
    const m = first + j;
    const wave = round === null ? cosineOfTurns(turns * m) : round[m % round.length]!;
    samples[j] = amplitude * samples[j]! * wave;
  }
}
