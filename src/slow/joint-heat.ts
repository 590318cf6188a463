/**
 * How much warmer a joint gets than the bar beside it, θ [K], with the time constant τ of its bar:
 *
 *   dθ/dt = (R_thj R (1 + α θ) I² − θ)/τ
 *
 * Its end is R_thj R I²/(1 − α R_thj R I²). Where α R_thj R I² ≥ 1 it has none: the resistance grows faster with the heat than the
 * joint cools.
 */
import { perKelvin } from '../copper/material.ts';
import { type SlowLaw, towards } from './slow-law.ts';

/** Beyond this rise hard copper softens and the joint loosens: nobody follows it further [K]. Common practice. */
export const softened_K = 200;

export interface Joint {
  readonly thermal_K_per_W: number;
  /** Of the joint, cold. */
  readonly joint_ohm: number;
  readonly time_s: number;
}

/**
 * Rise of a joint over its bar at the end, null where it has none (α R_thj R I² ≥ 1). `cold_K`: with the resistance of the cold
 * joint, R_thj R I².
 */
export function jointRise_K(
  thermal_K_per_W: number,
  joint_ohm: number,
  rms_A: number,
): { readonly steady_K: number | null; readonly cold_K: number } {
  const cold_K = thermal_K_per_W * joint_ohm * rms_A * rms_A;
  const left = 1 - perKelvin * cold_K;
  return { steady_K: left > 0 ? cold_K / left : null, cold_K };
}

/** Of the joint's rise [K] at an RMS current. Without a time constant it is at its end at once; infinite where it has none. */
export function jointHeat({ thermal_K_per_W, joint_ohm, time_s }: Joint, rms_A: number): SlowLaw {
  const { steady_K, cold_K } = jointRise_K(thermal_K_per_W, joint_ohm, rms_A);
  if (!(time_s > 0)) return towards(steady_K ?? Number.POSITIVE_INFINITY, 0);
  const slope_per_s = (perKelvin * cold_K - 1) / time_s;
  return { rate: (rise_K) => cold_K / time_s + slope_per_s * rise_K, slope: () => slope_per_s };
}
