/** Complex values as gain and phase. */
import { arcTangent } from '../base/arc-tangent.ts';
import { logarithm } from '../base/logarithm.ts';
import { type Complex, magnitude } from './complex.ts';

/** 20 log₁₀ of a ratio of amplitudes. */
export function ratio_dB(ratio: number): number {
  return (20 / Math.LN10) * logarithm(ratio);
}

export function decibels(a: Complex): number {
  return ratio_dB(magnitude(a));
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
