/** Rules 9 and 10: the same at the end of life, and how long that is away. */
import { energyRules } from './energy-rules.ts';
import type { Line } from './line.ts';
import { F, J, V } from './print.ts';
import type { Swing } from './swing.ts';
import type { TrayFacts } from './tray-facts.ts';

/** Energy and full-power window with the aged capacitance and resistance. */
export function agedRules(about: string, swing: Swing, tau_s: number, old: TrayFacts): readonly Line[] {
  return energyRules(about, swing, tau_s, old).map((line) => {
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

/**
 * Life relative to the rated point: L/L0 = 2^((T0 − T)/10 K) · 1.3^((V0 − V)/0.1 V), per cell, usual for organic
 * double-layer cells. The model gives neither life nor cells, so cells of 2.7 V are assumed and only the factor is stated.
 */
export function lifeRule(tray: TrayFacts): Line {
  const { rated_voltage_V } = tray.values;
  const cells = Math.round(rated_voltage_V / 2.7);
  const mean = Math.sqrt((tray.low_V ** 2 + tray.high_V ** 2) / 2);
  const volts = (rated_voltage_V - mean) / cells;
  const byVoltage = 1.3 ** (Math.min(0.4, volts) / 0.1);
  return {
    rule: 10,
    title: 'Life',
    about: '',
    formula: 'L/L0 = 2^((T0 − T)/10 K) · 1.3^((V0 − V)/0.1 V) per cell, at most 0.4 V below rated',
    numbers: `at half charge ${V(mean)} over ${cells} cells (2.7 V each, assumed): ${V(volts)} below rated, × ${byVoltage.toFixed(1)}; × 2 for each 10 K cooler`,
    asks: 'the rated life from the data sheet; the model does not state it',
    trays: null,
  };
}
