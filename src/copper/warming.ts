/** How a bar takes up heat and gives it off, from its rating: what carries I_50 gives off R I_50² at 50 K. */
import { type Bars, section_m2 } from './bars.ts';
import { cooled_W_per_mK } from './cooling.ts';
import { conductivity_W_per_mK, heat_J_per_K_m3, resistivity20_ohm_m, warmer } from './material.ts';
import { ratedRise_K, stillRating_A } from './rating.ts';

/** Rated surroundings and the temperature of a bar that carries its rating in them. */
const surroundings_degC = 40;
export const rated_degC = surroundings_degC + ratedRise_K;

/** Heat that a metre of a pole gives off per kelvin in still air [W/(m K)]: ρ(90 °C) I_50²/(A · 50 K). */
function still_W_per_mK(bars: Bars): number {
  const resistance_ohm_per_m = (resistivity20_ohm_m * warmer(rated_degC)) / section_m2(bars);
  return (resistance_ohm_per_m * stillRating_A(bars) ** 2) / ratedRise_K;
}

/** The same as the pole is cooled. */
export function givenOff_W_per_mK(bars: Bars): number {
  return cooled_W_per_mK(bars, still_W_per_mK(bars));
}

/** What heats a pole by 50 K as it is cooled [A]: √(g/g_still) times its rating in still air. */
export function poleRating_A(bars: Bars): number {
  const still = still_W_per_mK(bars);
  return stillRating_A(bars) * Math.sqrt(cooled_W_per_mK(bars, still) / still);
}

/** Thermal time constant of a pole [s]: heat of its copper over what it gives off. */
export function thermalTime_s(bars: Bars): number {
  return (section_m2(bars) * heat_J_per_K_m3) / givenOff_W_per_mK(bars);
}

/**
 * Heat that a long flat bar beside a joint takes away per kelvin [W/K]: √(g λ A), g the heat that a metre of bar
 * gives to the air per kelvin, λ copper's conductivity, A the section. A long fin: Incropera, DeWitt, Fundamentals of
 * Heat and Mass Transfer, chapter 3.
 */
export function finConductance_W_per_K(
  perMetre_W_per_mK: number,
  section_m2: number,
  conductivity: number = conductivity_W_per_mK,
): number {
  return Math.sqrt(perMetre_W_per_mK * conductivity * section_m2);
}

/** From surfaces in still air, radiation included; common practice. */
const surface_W_per_m2K = 8;

/**
 * From a joint to its surroundings, above what the bar beside it has [K/W]: its own faces, a square of the width on either
 * side of each bar, and the pole on both sides of it as two long fins.
 */
export function jointThermalResistance_K_per_W(bars: Bars): number {
  const own = surface_W_per_m2K * 2 * bars.count * bars.width_m * bars.width_m;
  return 1 / (own + 2 * finConductance_W_per_K(givenOff_W_per_mK(bars), section_m2(bars)));
}
