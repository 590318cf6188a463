/** What fans and liquid take from a pole beside what still air does. */
import { cubeRoot, power } from '../base/power.ts';
import type { Bars } from './bars.ts';

/**
 * Air at 65 °C, the mean of a bar at 90 °C and surroundings of 40 °C: conductivity [W/(m K)], kinematic viscosity [m²/s], Prandtl
 * number. Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, table A.4, between 300 K and 350 K (from memory).
 */
const air = { conductivity: 0.0292, viscosity: 19.7e-6, prandtl: 0.702 } as const;

/** Where flow along a plate turns turbulent. */
const critical_Re = 5e5;

/**
 * Mean heat transfer of air that is blown across a flat bar, along its width [W/(m² K)]: Nu = 0.664 Re^(1/2) Pr^(1/3) while laminar,
 * (0.037 Re^(4/5) − 871) Pr^(1/3) beyond. Incropera, DeWitt, chapter 7.
 */
export function forced_W_per_m2K(speed_m_per_s: number, width_m: number): number {
  const Re = (speed_m_per_s * width_m) / air.viscosity;
  const alike = Re < critical_Re ? 0.664 * Math.sqrt(Re) : 0.037 * power(Re, 0.8) - 871;
  return (alike * cubeRoot(air.prandtl) * air.conductivity) / width_m;
}

/**
 * What a metre of a pole gives off per kelvin [W/(m K)] where still air takes `still_W_per_mK`: with fans the larger of that and of what they
 * take from the outer faces (between the bars of a pole, and by radiation, nothing: on the safe side), and what goes into a coolant.
 */
export function cooled_W_per_mK(bars: Bars, still_W_per_mK: number): number {
  const {
    width_m,
    thickness_m,
    count,
    length_m,
    air_speed_m_per_s = 0,
    coolant_resistance_K_per_W = 0,
  } = bars;
  const outer_m = 2 * (width_m + (2 * count - 1) * thickness_m);
  const blown = air_speed_m_per_s > 0 ? forced_W_per_m2K(air_speed_m_per_s, width_m) * outer_m : 0;
  const coolant = coolant_resistance_K_per_W > 0 ? 1 / (coolant_resistance_K_per_W * length_m) : 0;
  return Math.max(still_W_per_mK, blown) + coolant;
}
