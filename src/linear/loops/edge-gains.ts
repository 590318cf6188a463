/**
 * Gains of all loops alike at which the closed loop has a mode on the imaginary axis, and how many modes begin or cease
 * to grow there: with an eigenvalue of L(jω) at −1/k, 1/k times the distance from 0 that the locus passes at. A locus
 * that passes the negative real axis upwards while the frequency rises goes round −1/k once more (clockwise) for every
 * larger k, and its mirror at −ω with it: two modes more.
 */
import { type Complex, magnitude } from '../complex.ts';
import { ratio_dB } from '../decibels.ts';
import type { LociAt, LociPoint } from './loci.ts';
import { axisPassings } from './passings.ts';

export interface EdgeGain {
  /** Over the present gain. */
  readonly gain_ratio: number;
  readonly frequency_Hz: number;
  /** Poles that grow above it less those below. */
  readonly more: number;
}

/** Highest gain that is looked for, and over one the lowest: 40 dB. */
const highest_ratio = 100;
/** What is real to this share of its size at this share of the lowest frequency is taken to be so at 0 Hz. */
const real_ratio = 1e-2;
const nearZero_ratio = 1e-3;

/** So near to half the sampling rate a locus is taken to be on the axis that it ends on there, over that rate. */
const nearHalf_ratio = 1e-4;

/**
 * In ascending order of gain. `half_Hz`: half the sampling rate of a sampled loop, where its loci end on the real axis: a mode that
 * begins to grow there alternates from one sampling to the next, and is one pole.
 */
export function edgeGains(
  at: LociAt,
  points: readonly LociPoint[],
  half_Hz = Number.POSITIVE_INFINITY,
): EdgeGain[] {
  const passings = axisPassings(at, points, 1 / highest_ratio);
  const lastBelow_Hz = half_Hz * (1 - nearHalf_ratio);
  const swinging = passings
    .filter(({ frequency_Hz }) => frequency_Hz < lastBelow_Hz)
    .map(
      ({ frequency_Hz, value, isRising }): EdgeGain => ({
        gain_ratio: 1 / magnitude(value),
        frequency_Hz,
        more: isRising ? 2 : -2,
      }),
    );
  const standing = realAt(at(points[0]!.frequency_Hz * nearZero_ratio)).map(
    ({ re, im }): EdgeGain => ({ gain_ratio: -1 / re, frequency_Hz: 0, more: im > 0 ? 1 : -1 }),
  );
  const alternating = (half_Hz < Number.POSITIVE_INFINITY ? realAt(at(lastBelow_Hz)) : []).map(
    ({ re, im }): EdgeGain => ({ gain_ratio: -1 / re, frequency_Hz: half_Hz, more: im < 0 ? 1 : -1 }),
  );
  return [...swinging, ...standing, ...alternating].sort((a, b) => a.gain_ratio - b.gain_ratio);
}

/** From `growing` poles at the present gain: the nearest gain at which none is left [dB], up or down; null: none. */
export function gainToStable(edges: readonly EdgeGain[], growing: number): number | null {
  const walked = (passed: readonly EdgeGain[], sign: 1 | -1): number | null => {
    let left = growing;
    for (const { gain_ratio, more } of passed) {
      left += sign * more;
      if (left === 0) return ratio_dB(gain_ratio);
    }
    return null;
  };
  const down = walked(edges.filter(({ gain_ratio }) => gain_ratio < 1).reverse(), -1);
  const up = walked(
    edges.filter(({ gain_ratio }) => gain_ratio >= 1),
    1,
  );
  if (down === null || up === null) return down ?? up;
  return -down < up ? down : up;
}

/** Of the values of loci those on the negative real axis, within the gains that are looked for. */
function realAt(values: readonly Complex[]): Complex[] {
  return values.filter(
    ({ re, im }) => re < -1 / highest_ratio && re > -highest_ratio && Math.abs(im) < -real_ratio * re,
  );
}
