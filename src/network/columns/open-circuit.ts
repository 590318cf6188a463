/** The open-circuit voltage of a battery shelf's packs, from the per-unit points of its model. */
import { openCircuitPoints } from '../../devices/pack/pack.ts';
import type { BatteryValues } from '../../scenario/parameters/battery.ts';

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
  return integral(openCircuit_V(values), 1);
}

/** Share of the whole energy that stands below charge z. */
export function energyShare(values: BatteryValues, z: number): number {
  const at = openCircuit_V(values);
  return integral(at, z) / integral(at, 1);
}

/** ∫ OCV dz from 0 to z [V]. */
function integral(at: readonly number[], z: number): number {
  let sum = 0;
  for (let p = 1; p < at.length; p++) {
    const from = openCircuitPoints[p - 1]!;
    const width = openCircuitPoints[p]! - from;
    const part = Math.min(1, (z - from) / width);
    if (part <= 0) break;
    sum += part * width * (at[p - 1]! + (part * (at[p]! - at[p - 1]!)) / 2);
  }
  return sum;
}
