/**
 * Steady heat of bars and cells from RMS currents: the slow pass, taken to its end. The electrical run knows
 * no temperature; resistance is that of the model at all of them.
 */
import { power } from '../../base/power.ts';
import type { BarValues } from '../../scenario/parameters/bar.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import type { Stated } from '../record/stated.ts';

const ratedRise_K = 50;
/** A bar's current over its temperature rise: I ∝ ΔT^0.61. */
const exponent = 0.61;

/**
 * Rise of a bar in still air: ΔT = 50 K (I/I_50)^(1/0.61), with I_50 the current that heats it by 50 K.
 * Source: "Copper for Busbars", Copper Development Association publication 22, 1996, section 3.
 */
export function steadyRise_K(rms_A: number, rated_A: number): number {
  return ratedRise_K * power(rms_A / rated_A, 1 / exponent);
}

/** Rated current of a flat bar on edge in still air, 50 K over 40 °C: 7.73 A^0.5 p^0.39 (mm², mm); same source. */
export function flatBarRating_A(width_mm: number, thickness_mm: number): number {
  return 7.73 * Math.sqrt(width_mm * thickness_mm) * power(2 * (width_mm + thickness_mm), 0.39);
}

/** The bar a channel belongs to; contacts have no channel. */
export function barOf({ bars }: Stated, owner: string): BarValues {
  const link = bars.links.find(({ id }) => id === owner);
  if (link !== undefined) return link;
  if (bars.tie?.id === owner) return bars.tie;
  return owner.startsWith('rack.') ? bars.rackSegment : bars.segment;
}

/** Copper's resistance over its temperature, from 20 °C [1/K]; IEC 60028. */
const copper_per_K = 0.00393;

/**
 * Rise of a joint over its bar, R_thj R I²/(1 − α R_thj R I²), for the resistance grows with the heat; null where it
 * has no end (α R_thj R I² ≥ 1). `cold_K`: with the resistance of the cold joint, R_thj R I².
 */
export function jointRise_K(
  thermal_K_per_W: number,
  joint_ohm: number,
  rms_A: number,
): { readonly steady_K: number | null; readonly cold_K: number } {
  const cold_K = thermal_K_per_W * joint_ohm * rms_A * rms_A;
  const left = 1 - copper_per_K * cold_K;
  return { steady_K: left > 0 ? cold_K / left : null, cold_K };
}

/**
 * Heat that a long flat bar beside a joint takes away per kelvin [W/K]: √(g λ A), g the heat that a metre of bar
 * gives to the air per kelvin, λ copper's conductivity, A the section. A long fin: Incropera, DeWitt, Fundamentals of
 * Heat and Mass Transfer, chapter 3.
 */
export function finConductance_W_per_K(
  perMetre_W_per_mK: number,
  section_m2: number,
  conductivity_W_per_mK = 390,
): number {
  return Math.sqrt(perMetre_W_per_mK * conductivity_W_per_mK * section_m2);
}

/** Life of an aluminium capacitor: L = L_0 2^((T_0 − T)/10 K). Common practice; no standard states it. */
export function capacitorLife_s(life_s: number, at_degC: number, hot_degC: number): number {
  return life_s * power(2, (at_degC - hot_degC) / 10);
}

/** Hottest spot of a tray's cells: T_coolant + R_th · R I². null where the model states no R_th. */
export function hotSpot_degC(tray: TrayValues, rms_A: number): number | null {
  if (!(tray.thermal_resistance_K_per_W > 0)) return null;
  return tray.coolant_temperature_degC + tray.thermal_resistance_K_per_W * tray.esr_ohm * rms_A * rms_A;
}

/**
 * Life of a double-layer cell at a temperature, against its voltage [V]: L = L_0 2^((T_0 − T)/10 K) 1.3^((V_0 − V)/0.1 V).
 * Common practice for organic electrolytes; no standard states it.
 */
export function cellLife_s(
  rated: { readonly life_s: number; readonly temperature_degC: number; readonly voltage_V: number },
  temperature_degC: number,
): (voltage_V: number) => number {
  const cooled_s = rated.life_s * power(2, (rated.temperature_degC - temperature_degC) / 10);
  return (voltage_V) => cooled_s * power(1.3, (rated.voltage_V - voltage_V) / 0.1);
}
