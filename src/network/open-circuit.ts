/** The open-circuit voltage of a battery shelf's packs, from the per-unit points of its model. */
import { openCircuitPoints } from '../devices/pack.ts';
import type { BatteryValues } from '../scenario/parameters/battery.ts';

/** Voltages at `openCircuitPoints` [V]. */
export function openCircuit_V(values: BatteryValues): number[] {
  const perUnit = [
    values.open_circuit_empty_ratio,
    values.open_circuit_tenth_ratio,
    values.open_circuit_half_ratio,
    values.open_circuit_nine_tenths_ratio,
    values.open_circuit_full_ratio,
  ];
  return perUnit.map((ratio) => ratio * values.pack_voltage_V);
}

/** Mean over the charge [V]: energy over charge. */
export function meanOpenCircuit_V(values: BatteryValues): number {
  const at = openCircuit_V(values);
  let sum = 0;
  for (let p = 1; p < at.length; p++) {
    sum += ((openCircuitPoints[p]! - openCircuitPoints[p - 1]!) * (at[p]! + at[p - 1]!)) / 2;
  }
  return sum;
}
