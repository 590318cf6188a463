/**
 * Steady heat of bars and cells from RMS currents: the slow pass, taken to its end. The electrical run knows
 * no temperature; resistance is that of the model at all of them.
 */
import { power } from '../../base/power.ts';
import { perKelvin } from '../../copper/material.ts';
import type { BarValues } from '../../scenario/parameters/bar.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import type { Stated } from '../record/stated.ts';

/** The bar a channel belongs to; contacts have no channel. */
export function barOf({ bars }: Stated, owner: string): BarValues {
  const link = bars.links.find(({ id }) => id === owner);
  if (link !== undefined) return link;
  if (bars.tie?.id === owner) return bars.tie;
  return owner.startsWith('rack.') ? bars.rackSegment : bars.segment;
}

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
  const left = 1 - perKelvin * cold_K;
  return { steady_K: left > 0 ? cold_K / left : null, cold_K };
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

/** How far below its rated voltage [V] the law of a cell's life is counted on: further down nobody has shown it (assumed). */
const furthestBelow_V = 0.4;

/**
 * Life of a double-layer cell at a temperature, against its voltage [V]: L = L_0 2^((T_0 − T)/10 K) 1.3^((V_0 − V)/0.1 V), with
 * V_0 − V at most 0.4 V. Common practice for organic electrolytes; no standard states it.
 */
export function cellLife_s(
  rated: { readonly life_s: number; readonly temperature_degC: number; readonly voltage_V: number },
  temperature_degC: number,
): (voltage_V: number) => number {
  const cooled_s = rated.life_s * power(2, (rated.temperature_degC - temperature_degC) / 10);
  return (voltage_V) => cooled_s * power(1.3, Math.min(furthestBelow_V, rated.voltage_V - voltage_V) / 0.1);
}
