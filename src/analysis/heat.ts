/**
 * Steady heat of bars and cells from RMS currents: the slow pass, taken to its end. The electrical run knows
 * no temperature; resistance is that of the model at all of them.
 */
import type { BarValues } from '../scenario/parameters/bar.ts';
import type { TrayValues } from '../scenario/parameters/tray.ts';
import type { Scenario } from '../scenario/scenario.ts';

const ratedRise_K = 50;
/** A bar's current over its temperature rise: I ∝ ΔT^0.61. */
const exponent = 0.61;

/**
 * Rise of a bar in still air: ΔT = 50 K (I/I_50)^(1/0.61), with I_50 the current that heats it by 50 K.
 * Source: "Copper for Busbars", Copper Development Association publication 22, 1996, section 3.
 */
export function steadyRise_K(rms_A: number, rated_A: number): number {
  return ratedRise_K * (rms_A / rated_A) ** (1 / exponent);
}

/** Rated current of a flat bar on edge in still air, 50 K over 40 °C: 7.73 A^0.5 p^0.39 (mm², mm); same source. */
export function flatBarRating_A(width_mm: number, thickness_mm: number): number {
  return 7.73 * Math.sqrt(width_mm * thickness_mm) * (2 * (width_mm + thickness_mm)) ** 0.39;
}

/** The bar a channel belongs to, where it states its rating; contacts and joints state none. */
export function heatOfBar({ bars }: Scenario, owner: string): BarValues | null {
  const link = bars.links.find(({ id }) => id === owner);
  const bar =
    link ?? (bars.tie?.id === owner ? bars.tie : owner.startsWith('rack.') ? bars.rackSegment : bars.segment);
  return bar.rated_current_A > 0 ? bar : null;
}

/** Hottest spot of a tray's cells: T_coolant + R_th · R I². null where the model states no R_th. */
export function hotSpot_degC(tray: TrayValues, rms_A: number): number | null {
  if (!(tray.thermal_resistance_K_per_W > 0)) return null;
  return tray.coolant_temperature_degC + tray.thermal_resistance_K_per_W * tray.esr_ohm * rms_A * rms_A;
}

/**
 * Life of a double-layer cell at a temperature and voltage: L = L_0 2^((T_0 − T)/10 K) 1.3^((V_0 − V)/0.1 V).
 * Common practice for organic electrolytes; no standard states it.
 */
export function cellLife_s(
  rated: { readonly life_s: number; readonly temperature_degC: number; readonly voltage_V: number },
  temperature_degC: number,
  voltage_V: number,
): number {
  const cooler = 2 ** ((rated.temperature_degC - temperature_degC) / 10);
  return rated.life_s * cooler * 1.3 ** ((rated.voltage_V - voltage_V) / 0.1);
}
