/** What a feeder's short-circuit power and X/R say of the impedance before it: |Z| = V²/S_k, R = |Z|/√(1 + (X/R)²). */
import type { FeederValues } from '../parameters/feeder.ts';

export interface SupplyImpedance {
  readonly resistance_ohm: number;
  readonly reactance_ohm: number;
  readonly impedance_ohm: number;
}

/** `share`: how much of it lies between the open-circuit voltage and the shelves, as far as the run goes. */
export function impedanceOf(feeder: FeederValues, share = feeder.gives_way_ratio): SupplyImpedance {
  const { line_voltage_V, short_circuit_power_VA, reactance_ratio_ratio } = feeder;
  const impedance_ohm = (share * line_voltage_V * line_voltage_V) / short_circuit_power_VA;
  const resistance_ohm = impedance_ohm / Math.hypot(1, reactance_ratio_ratio);
  return { resistance_ohm, reactance_ohm: reactance_ratio_ratio * resistance_ohm, impedance_ohm };
}

/** tan φ = Q/P of a current that lags, from the power factor. */
export function reactivePerActive(power_factor_ratio: number): number {
  return Math.sqrt(1 - power_factor_ratio * power_factor_ratio) / power_factor_ratio;
}
