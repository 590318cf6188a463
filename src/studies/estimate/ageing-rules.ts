/** Rules 9 and 10: the same at the end of life, and how long that is away. */

import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { cellLife_s } from '../../slow/life.ts';
import { energyRules } from './energy-rules.ts';
import type { EstimateLine } from './line.ts';
import { F, J, V } from './print.ts';
import type { LoadSwing } from './swing.ts';
import { cold, type TrayFacts } from './tray-facts.ts';

/** Energy and full-power window with the aged capacitance and resistance. */
export function agedRules(
  about: string,
  swing: LoadSwing,
  smoothing: SmoothingValues,
  old: TrayFacts,
): readonly EstimateLine[] {
  return energyRules(about, swing, smoothing, old).map((line) => {
    const lost = fullPowerLoss(old);
    return {
      ...line,
      rule: 9,
      title: `End of life: ${line.title.toLowerCase()}`,
      formula: `rule ${line.rule} with ${F(old.capacitance_F)}, ${(1000 * old.esr_ohm).toFixed(2)} mΩ (${J(old.window_J)})`,
      asks: `${line.asks.replace(': energy alone', '')}; full power only above ${V(old.fullPower_V)}${lost}`,
    };
  });
}

function fullPowerLoss(tray: TrayFacts): string {
  const { low_V, high_V, fullPower_V, window_J, capacitance_F } = tray;
  if (fullPower_V <= low_V) return ', the whole window';
  const left = (capacitance_F / 2) * (high_V ** 2 - fullPower_V ** 2);
  return `, ${Math.round((100 * left) / window_J)} % of the window`;
}

/** Rule 8 once more with the aged resistance. */
export function agedHeat(line: EstimateLine): EstimateLine {
  return { ...line, rule: 9, title: 'End of life: RMS heating', formula: 'rule 8 with the aged resistance' };
}

/** Rule 7 once more with the aged resistance. */
export function agedEsr(line: EstimateLine): EstimateLine {
  return { ...line, rule: 9, title: 'End of life: ESR step', formula: 'rule 7 with the aged resistance' };
}

/**
 * Rule 8 at the end of life on the warmest coolant that the model states. It asks only where the coolant gets that
 * warm, so it is not among what decides.
 */
export function hotHeat(line: EstimateLine, coolant_degC: number): EstimateLine {
  const at = `${Number(coolant_degC.toPrecision(4))} °C`;
  return {
    ...line,
    rule: 9,
    title: 'End of life, hot: RMS heating',
    formula: `rule 8 with the aged resistance on coolant of ${at}`,
    asks: `${line.asks}, only where coolant reaches ${at}`,
    trays: null,
  };
}

/** Energy at the end of life with cells at 0 °C. It asks only where they are that cold, like `hotHeat`. */
export function coldRules(
  about: string,
  swing: LoadSwing,
  smoothing: SmoothingValues,
  facts: TrayFacts,
): readonly EstimateLine[] {
  return energyRules(about, swing, smoothing, facts).map((line) => ({
    ...line,
    rule: 9,
    title: `End of life, cold: ${line.title.toLowerCase()}`,
    formula: `rule ${line.rule} at 0 °C: aged capacitance × ${cold.capacitance}, aged resistance × ${cold.esr} (common practice, no source)`,
    asks: `${line.asks.replace(': energy alone', '')}, only where cells are that cold; full power only above ${V(facts.fullPower_V)}${fullPowerLoss(facts)}`,
    trays: null,
  }));
}

/**
 * Life at the pulses' heat and half charge, by the law that the run's `tray-life` goes by: L = L0 2^((T0 − T)/10 K)
 * 1.3^((V0 − V)/0.1 V) per cell.
 */
export function lifeRule(
  about: string,
  { scenario }: ReadScenario,
  rms_A: number,
  tray: TrayFacts,
): EstimateLine {
  const { values } = tray;
  const cells =
    values.cell_count_count > 0 ? values.cell_count_count : Math.round(values.rated_voltage_V / 2.7);
  const mean = Math.sqrt((tray.low_V ** 2 + tray.high_V ** 2) / 2);
  const rated = {
    life_s: values.rated_life_s,
    temperature_degC: values.rated_life_temperature_degC,
    voltage_V: values.rated_voltage_V / cells,
  };
  const fitted = Math.max(1, scenario.trays.length);
  const hot =
    values.coolant_temperature_degC +
    (rms_A / fitted) ** 2 * tray.esr_ohm * values.thermal_resistance_K_per_W;
  const ofOne = { ...rated, life_s: 1 };
  const byHeat = cellLife_s(ofOne, hot)(rated.voltage_V);
  const byVoltage = cellLife_s(ofOne, rated.temperature_degC)(mean / cells);
  const years = (rated.life_s * byVoltage * byHeat) / 31_557_600;
  return {
    rule: 10,
    title: 'Life',
    about,
    formula: 'L = L0 · 2^((T0 − T)/10 K) · 1.3^((V0 − V)/0.1 V) per cell, at most 0.4 V below rated',
    numbers: `${hot.toFixed(1)} °C against ${values.rated_life_temperature_degC} °C: × ${byHeat.toFixed(1)}; half charge ${V(mean)} over ${cells} cells: ${V(rated.voltage_V - mean / cells)} below rated, × ${byVoltage.toFixed(1)}`,
    asks:
      values.rated_life_s > 0
        ? `about ${years.toFixed(1)} years of pulses without a pause; the life that a run tells beside its verdict stands over this: the same law, over the current and charge that it finds`
        : 'the rated life from the data sheet; the model does not state it',
    trays: null,
  };
}
