/** Parts that a series resistance warms: cells of trays, capacitors of banks. T → T_a + R_th · R I², with one time constant. */
import type { BankValues } from '../scenario/parameters/bank.ts';
import type { TrayValues } from '../scenario/parameters/tray.ts';
import { type SlowLaw, towards } from './slow-law.ts';

/** Hottest spot of a tray's cells at the end: T_coolant + R_th · R I². null where the model states no R_th. */
export function hotSpot_degC(
  tray: Pick<TrayValues, 'thermal_resistance_K_per_W' | 'coolant_temperature_degC' | 'esr_ohm'>,
  rms_A: number,
): number | null {
  if (!(tray.thermal_resistance_K_per_W > 0)) return null;
  return tray.coolant_temperature_degC + tray.thermal_resistance_K_per_W * tray.esr_ohm * rms_A * rms_A;
}

/** Hottest spot of a bank's capacitors at the end: T_a + R_th · r I². null where the model states no R_th. */
export function bankSpot_degC(
  bank: Pick<BankValues, 'thermal_resistance_K_per_W' | 'ambient_degC' | 'esr_ohm'>,
  rms_A: number,
): number | null {
  if (!(bank.thermal_resistance_K_per_W > 0)) return null;
  return bank.ambient_degC + bank.thermal_resistance_K_per_W * bank.esr_ohm * rms_A * rms_A;
}

export function trayHeat(tray: TrayValues, rms_A: number): SlowLaw | null {
  const end = hotSpot_degC(tray, rms_A);
  return end === null ? null : towards(end, tray.thermal_time_s);
}

export function bankHeat(bank: BankValues, rms_A: number): SlowLaw | null {
  const end = bankSpot_degC(bank, rms_A);
  return end === null ? null : towards(end, bank.thermal_time_s);
}
