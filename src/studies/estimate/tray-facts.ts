/** What one tray can give, new or at its end of life. */
import { fastCapacitance_F } from '../../scenario/derived/slow-branch.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import type { ReadScenario } from '../../scenario/read.ts';

export interface TrayFacts {
  /** What is there at once; the share of a slow branch comes too late for a swing of seconds. */
  readonly capacitance_F: number;
  readonly esr_ohm: number;
  readonly low_V: number;
  readonly high_V: number;
  /** Energy between the ends of the voltage window, at constant capacitance [J]. */
  readonly window_J: number;
  /** Part of it between the ends of the charge schedule [J]. */
  readonly usable_J: number;
  readonly power_W: number;
  /** Lowest capacitor voltage at which the capacitor current still allows full power out [V]. */
  readonly fullPower_V: number;
  /** Below this no power of this size can be drawn at all, 2 √(R P) [V]. */
  readonly feasible_V: number;
  readonly values: TrayValues;
}

/** Cells at 0 °C against 25 °C, as organic double-layer cells usually are. Common practice, no source. */
export const cold = { capacitance: 0.95, esr: 1.5 } as const;

const asItIs = { capacitance: 1, esr: 1 };

/** `aged`: with what the model states for the end of life, where it states it; `times`: that much more or less. */
export function trayFacts(
  read: ReadScenario,
  aged: boolean,
  times: { readonly capacitance: number; readonly esr: number } = asItIs,
): TrayFacts | null {
  const tray = read.scenario.trays[0];
  if (tray === undefined) return null;
  const { values } = tray;
  const old = (key: string, now: number): number => {
    const note = read.notes.get(`trays.${tray.id}.${key}`);
    return aged ? (note?.end_of_life ?? now) : now;
  };
  const whole_F = times.capacitance * old('capacitance', values.capacitance_F);
  const C = fastCapacitance_F({ ...values, capacitance_F: whole_F });
  const R = times.esr * old('esr', values.esr_ohm);
  const { voltage_low_V: low_V, voltage_high_V: high_V } = values;
  const window_J = (C / 2) * (high_V ** 2 - low_V ** 2);
  const { charge_low_ratio, charge_high_ratio } = read.scenario.firmware.smoothing;
  const drawn_W = values.power_limit_W / values.efficiency_ratio + values.standing_loss_W;
  const i = values.capacitor_current_limit_A;
  return {
    capacitance_F: C,
    esr_ohm: R,
    low_V,
    high_V,
    window_J,
    usable_J: window_J * (charge_high_ratio - charge_low_ratio),
    power_W: values.power_limit_W,
    fullPower_V: Math.max(low_V, drawn_W / i + R * i),
    feasible_V: 2 * Math.sqrt(R * drawn_W),
    values,
  };
}
