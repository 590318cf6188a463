/**
 * Parts that a series resistance warms: cells of trays, capacitors of banks. T → T_a + R_th · R I², with one time constant. The
 * resistance of cells is that of their own temperature.
 */
import { type CellSlopes, esrAt, esrSlopeAt } from '../scenario/derived/cell-temperature.ts';
import type { BankValues } from '../scenario/parameters/bank.ts';
import type { TrayValues } from '../scenario/parameters/tray.ts';
import { march } from './march.ts';
import { type SlowLaw, towards } from './slow-law.ts';

/** What a tray's cells heat and cool by. */
type HeatedTray = Pick<
  TrayValues,
  'thermal_resistance_K_per_W' | 'coolant_temperature_degC' | 'esr_ohm' | 'cell_temperature_degC'
> &
  Pick<CellSlopes, 'esr_cold_rise_ratio' | 'esr_warm_fall_ratio'>;

/** Longer than any cell takes to its end, over its time constant; and the error there [K]. */
const forGood = 1e7;
const bound_K = 1e-6;

/**
 * Hottest spot of a tray's cells at the end: T with T = T_coolant + R_th · R(T) I². null where the model states no R_th, infinite
 * where a resistance that rises with the heat leaves no end.
 */
export function hotSpot_degC(tray: HeatedTray, rms_A: number): number | null {
  if (!(tray.thermal_resistance_K_per_W > 0)) return null;
  if (isSteady(tray)) return statedEnd_degC(tray, rms_A);
  const end = march(ownHeat(tray, rms_A, 1), tray.coolant_temperature_degC, forGood, bound_K);
  return Number.isFinite(end) ? end : Number.POSITIVE_INFINITY;
}

/** A resistance that no temperature moves. */
function isSteady({ esr_cold_rise_ratio, esr_warm_fall_ratio }: HeatedTray): boolean {
  return esr_cold_rise_ratio === 0 && esr_warm_fall_ratio === 0;
}

/** The end with the resistance that the values state. */
function statedEnd_degC(tray: HeatedTray, rms_A: number): number {
  return tray.coolant_temperature_degC + tray.thermal_resistance_K_per_W * tray.esr_ohm * rms_A * rms_A;
}

/** At the resistance of its own temperature: what `esr` states is that at `cell_temperature`. */
function ownHeat(tray: HeatedTray, rms_A: number, time_s: number): SlowLaw {
  const { coolant_temperature_degC: coolant, cell_temperature_degC } = tray;
  const cold_K = (statedEnd_degC(tray, rms_A) - coolant) / esrAt(tray, cell_temperature_degC);
  return {
    rate: (degC) => (coolant + cold_K * esrAt(tray, degC) - degC) / time_s,
    slope: (degC) => (cold_K * esrSlopeAt(tray, degC) - 1) / time_s,
  };
}

/** Hottest spot of a bank's capacitors at the end: T_a + R_th · r I². null where the model states no R_th. */
export function bankSpot_degC(
  bank: Pick<BankValues, 'thermal_resistance_K_per_W' | 'ambient_degC' | 'esr_ohm'>,
  rms_A: number,
): number | null {
  if (!(bank.thermal_resistance_K_per_W > 0)) return null;
  return bank.ambient_degC + bank.thermal_resistance_K_per_W * bank.esr_ohm * rms_A * rms_A;
}

/** Of the temperature of a tray's cells [°C]: dT/dt = (T_coolant + R_th · R(T) I² − T)/τ_th. */
export function trayHeat(
  tray: HeatedTray & Pick<TrayValues, 'thermal_time_s'>,
  rms_A: number,
): SlowLaw | null {
  if (!(tray.thermal_resistance_K_per_W > 0)) return null;
  const { thermal_time_s } = tray;
  return isSteady(tray) || !(thermal_time_s > 0)
    ? towards(hotSpot_degC(tray, rms_A)!, thermal_time_s)
    : ownHeat(tray, rms_A, thermal_time_s);
}

export function bankHeat(bank: BankValues, rms_A: number): SlowLaw | null {
  const end = bankSpot_degC(bank, rms_A);
  return end === null ? null : towards(end, bank.thermal_time_s);
}
