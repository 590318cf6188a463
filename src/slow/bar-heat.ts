/**
 * How a bar warms up and cools down. θ: rise over its air [K], τ: its time constant, I_50: the current that heats it by 50 K.
 *
 *   dθ/dt = (50 K/τ) · ρ(T_a + θ)/ρ(T_50) · [(I/I_50)² − (θ/50 K)^(2 · 0.61)],  T_50 = 40 °C + 50 K
 *
 * What it takes up is its loss at the resistance it then has (IEC 60028); what it gives off is the loss that would hold it
 * there, by the rating's own law (I ∝ θ^0.61: `copper/rating.ts`). So the end is the steady rise of the rating, the beginning of
 * a large current is adiabatic, and about 50 K the time constant is that of `copper/warming.ts`.
 */
import { power } from '../base/power.ts';
import { perKelvin, warmer } from '../copper/material.ts';
import { ratedRise_K, riseExponent, steadyRise_K } from '../copper/rating.ts';
import { rated_degC } from '../copper/warming.ts';
import type { BarValues } from '../scenario/parameters/bar.ts';
import type { SlowLaw } from './slow-law.ts';
import { towards } from './slow-law.ts';

type Warmed = Pick<BarValues, 'rated_current_A' | 'thermal_time_s' | 'air_temperature_degC'>;

/** Of the bar's rise [K] at an RMS current; null where the bar states no current that heats it by 50 K. */
export function barHeat(bar: Warmed, rms_A: number): SlowLaw | null {
  const { rated_current_A: rated_A, thermal_time_s: time_s, air_temperature_degC: air_degC } = bar;
  if (!(rated_A > 0)) return null;
  if (!(time_s > 0)) return towards(steadyRise_K(rms_A, rated_A), 0);
  const taken = (rms_A / rated_A) ** 2;
  const scale = ratedRise_K / (time_s * warmer(rated_degC));
  const given = (rise_K: number): number => (rise_K > 0 ? power(rise_K / ratedRise_K, 2 * riseExponent) : 0);
  return {
    rate: (rise_K) => scale * warmer(air_degC + rise_K) * (taken - given(rise_K)),
    slope: (rise_K) => {
      const falls = rise_K > 0 ? (2 * riseExponent * given(rise_K)) / rise_K : 0;
      return scale * (perKelvin * (taken - given(rise_K)) - warmer(air_degC + rise_K) * falls);
    },
  };
}

/** Resistance of a bar this much warmer than its air over the one that it states, at its stated temperature. */
export function warmedBy(
  { air_temperature_degC, temperature_degC }: Pick<BarValues, 'air_temperature_degC' | 'temperature_degC'>,
  rise_K: number,
): number {
  return warmer(air_temperature_degC + rise_K) / warmer(temperature_degC);
}
