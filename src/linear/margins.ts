/** Margins read off a loop gain over frequency. */

import { arcTangent } from '../base/arc-tangent.ts';
import { logarithm } from '../base/logarithm.ts';
import { power } from '../base/power.ts';
import { type Complex, magnitude } from './complex.ts';

export interface LoopPoint {
  readonly frequency_Hz: number;
  readonly value: Complex;
}

export interface Margins {
  /** Highest frequency at which the gain crosses 1 downwards; null when it does not. */
  readonly crossover_Hz: number | null;
  readonly phase_margin_deg: number | null;
  /** Where the phase passes −180°, and what the gain lacks to 1 there [dB]. */
  readonly phase_crossover_Hz: number | null;
  readonly gain_margin_dB: number | null;
  /** Least distance of the gain from −1, and where. */
  readonly clearance_ratio: number;
  readonly clearance_Hz: number;
}

export function decibels(a: Complex): number {
  return (20 / Math.LN10) * logarithm(magnitude(a));
}

/** Phases in degrees, followed along the curve so that they do not jump by whole turns. */
export function phases_deg(values: readonly Complex[]): number[] {
  let last = 0;
  return values.map(({ re, im }, k) => {
    let p = (arcTangent(im, re) * 180) / Math.PI;
    if (k > 0) p += 360 * Math.round((last - p) / 360);
    last = p;
    return p;
  });
}

/** Place on a log axis between two points where a line between their values reaches `goal`. */
function between(a: number, b: number, va: number, vb: number, goal: number): number {
  const along = (goal - va) / (vb - va);
  return a * power(b / a, along);
}

/** Of a sampled loop up to half its rate: above, it shows its lower frequencies again, and no margin lies there. */
export function marginsOf(whole: readonly LoopPoint[], half_sampling_Hz: number | null = null): Margins {
  const loop =
    half_sampling_Hz === null ? whole : whole.filter(({ frequency_Hz }) => frequency_Hz <= half_sampling_Hz);
  const gain = loop.map(({ value }) => decibels(value));
  const phase = phases_deg(loop.map(({ value }) => value));
  let crossover: number | null = null;
  let phaseMargin: number | null = null;
  let phaseCrossover: number | null = null;
  let gainMargin: number | null = null;
  for (let k = 1; k < loop.length; k++) {
    const [f0, f1] = [loop[k - 1]!.frequency_Hz, loop[k]!.frequency_Hz];
    if (gain[k - 1]! >= 0 && gain[k]! < 0) {
      crossover = between(f0, f1, gain[k - 1]!, gain[k]!, 0);
      const along = gain[k - 1]! / (gain[k - 1]! - gain[k]!);
      const p = phase[k - 1]! + along * (phase[k]! - phase[k - 1]!);
      const margin = p + 180 - 360 * Math.round(p / 360);
      phaseMargin = margin > 180 ? margin - 360 : margin;
    }
    // Each passing of an odd multiple of half a turn; the one with the least margin counts.
    const turn = Math.round((phase[k]! + 180) / 360);
    const goal = 360 * turn - 180;
    if ((phase[k - 1]! - goal) * (phase[k]! - goal) <= 0 && phase[k] !== phase[k - 1]) {
      const along = (goal - phase[k - 1]!) / (phase[k]! - phase[k - 1]!);
      const margin = -(gain[k - 1]! + along * (gain[k]! - gain[k - 1]!));
      if (gainMargin === null || Math.abs(margin) < Math.abs(gainMargin)) {
        gainMargin = margin;
        phaseCrossover = between(f0, f1, phase[k - 1]!, phase[k]!, goal);
      }
    }
  }
  let clearance = Number.POSITIVE_INFINITY;
  let clearance_Hz = 0;
  for (const { frequency_Hz, value } of loop) {
    const d = Math.hypot(1 + value.re, value.im);
    if (d < clearance) {
      clearance = d;
      clearance_Hz = frequency_Hz;
    }
  }
  return {
    crossover_Hz: crossover,
    phase_margin_deg: phaseMargin,
    phase_crossover_Hz: phaseCrossover,
    gain_margin_dB: gainMargin,
    clearance_ratio: clearance,
    clearance_Hz,
  };
}
