/** What the trays are built for, and what follows of it; nothing of their present state. Firmware computes from it too. */
import type { Int } from '../../base/int.ts';
import { foldedBack_A } from '../fold-back.ts';
import type { TrayColumns } from './tray-columns.ts';

export interface TrayRatings {
  /** As the scenario states them. */
  readonly columns: TrayColumns;
  /** Energy at the lower end of the voltage window, and between both ends [J]. */
  readonly lowest_J: Float64Array;
  readonly window_J: Float64Array;
  /** Reciprocal of the bus voltage below which the current limit folds back [1/V]. */
  readonly perFoldBack_V: Float64Array;
}

/** Energy of a bank at voltage u [J]: ∫ C(v) v dv = C_0 ((1 − k_v) u²/2 + k_v u³/(3 V_r)). */
export function bankEnergy_J(capacitance_F: number, slope_ratio: number, rated_V: number, u: number): number {
  return capacitance_F * u * u * ((1 - slope_ratio) / 2 + (slope_ratio * u) / (3 * rated_V));
}

/** Energy of tray k at capacitor voltage u [J]. */
export function storedEnergy_J(trays: TrayRatings, k: Int, u: number): number {
  const c = trays.columns;
  return bankEnergy_J(c.capacitance_F[k]!, c.voltage_slope_ratio[k]!, c.rated_voltage_V[k]!, u);
}

/** Most current that tray k carries in either direction at bus voltage v [A]. */
export function mostBusCurrent_A(trays: TrayRatings, k: Int, v: number): number {
  return foldedBack_A(trays.columns.bus_current_limit_A[k]!, trays.perFoldBack_V[k]!, v);
}
