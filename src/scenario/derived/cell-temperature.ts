/**
 * What the temperature of a tray's cells makes of the capacitance and the resistance that its model states at 25 °C, where the
 * standards measure both (IEC 62576: 25 ± 2 °C):
 *
 *   C = C_25 (1 − k_C c)     R = R_25 (1 + k_R c − k_w w)     c, w: kelvins below and above 25 °C
 *
 * Worked out once all changes are made, age among them: age is stated at 25 °C, so neither counts the other again.
 */
import type { Sheet } from '../sheet.ts';
import { asWritten } from '../sheet.ts';

/** Temperature at which a model states capacitance and resistance [°C]. */
export const stated_degC = 25;

export interface CellSlopes {
  readonly capacitance_cold_loss_ratio: number;
  readonly esr_cold_rise_ratio: number;
  readonly esr_warm_fall_ratio: number;
}

/** C over that at 25 °C. */
export function capacitanceAt(
  { capacitance_cold_loss_ratio }: Pick<CellSlopes, 'capacitance_cold_loss_ratio'>,
  degC: number,
): number {
  return 1 - capacitance_cold_loss_ratio * Math.max(0, stated_degC - degC);
}

/** R over that at 25 °C. */
export function esrAt(
  {
    esr_cold_rise_ratio,
    esr_warm_fall_ratio,
  }: Pick<CellSlopes, 'esr_cold_rise_ratio' | 'esr_warm_fall_ratio'>,
  degC: number,
): number {
  const above_K = degC - stated_degC;
  return 1 - (above_K < 0 ? esr_cold_rise_ratio : esr_warm_fall_ratio) * above_K;
}

/** How that changes with the temperature [1/K]. */
export function esrSlopeAt(
  {
    esr_cold_rise_ratio,
    esr_warm_fall_ratio,
  }: Pick<CellSlopes, 'esr_cold_rise_ratio' | 'esr_warm_fall_ratio'>,
  degC: number,
): number {
  return -(degC < stated_degC ? esr_cold_rise_ratio : esr_warm_fall_ratio);
}

export function cellsAtTemperature(sheet: Sheet): void {
  for (const path of [...sheet.cells.keys()]) {
    if (!path.startsWith('trays.') || !path.endsWith('.cell_temperature')) continue;
    const unit = path.slice(0, -'.cell_temperature'.length);
    const of = (key: string): number => sheet.number(`${unit}.${key}`);
    const degC = sheet.number(path);
    const slopes: CellSlopes = {
      capacitance_cold_loss_ratio: of('capacitance_cold_loss'),
      esr_cold_rise_ratio: of('esr_cold_rise'),
      esr_warm_fall_ratio: of('esr_warm_fall'),
    };
    multiply(`${unit}.capacitance`, capacitanceAt(slopes, degC), sheet);
    multiply(`${unit}.esr`, esrAt(slopes, degC), sheet);
  }
}

function multiply(path: string, factor: number, sheet: Sheet): void {
  const cell = sheet.cells.get(path);
  // What was refused is no number, and has its problem.
  if (factor === 1 || typeof cell?.value !== 'number' || !Number.isFinite(factor)) return;
  sheet.put(path, { ...cell, value: factor * cell.value, written: asWritten(cell) });
}
