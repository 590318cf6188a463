/**
 * How the numbers of a unit follow from another one of its kind: with its size, and with the voltage of the bus it stands on.
 * What is not listed stays as it is. The same reasoning by which `shelf-24kw.yaml` is two thirds of the 36 kW shelf:
 * parts side by side. Powers, currents and capacitances add up, resistances divide; a current at another voltage and
 * the same power goes with 1/V, a resistance with V², a capacitance and a gain [A/V] with 1/V².
 */
import type { SizedFamily } from './kits.ts';

/** Exponents of size and of voltage. */
export interface Law {
  readonly size?: 1 | -1;
  readonly volts?: -2 | -1 | 1 | 2;
}

export type Laws = Readonly<Record<string, Law>>;

const outputStage: Laws = {
  rated_voltage: { volts: 1 },
  droop: { size: -1, volts: 2 },
  proportional_gain: { size: 1, volts: -2 },
  integral_gain: { size: 1, volts: -2 },
  slew_limit: { size: 1, volts: -1 },
  output_capacitance: { size: 1, volts: -2 },
  output_esr: { size: -1, volts: 2 },
};

export const sizeLaws: Readonly<Record<SizedFamily, Laws>> = {
  shelves: {
    ...outputStage,
    module_power: { size: 1 },
    set_point: { volts: 1 },
    dc_loss_fixed: { size: 1 },
    dc_loss_linear: { volts: 1 },
    dc_loss_square: { size: -1, volts: 2 },
    ac_loss_fixed: { size: 1 },
    ac_loss_square: { size: -1 },
    module_bulk_capacitance: { size: 1 },
  },
  batteries: {
    ...outputStage,
    // Their output stage is damped by its own capacitor alone, which is at the low end of what is usual.
    output_capacitance: { size: 1 },
    output_esr: { size: -1 },
    module_power: { size: 1 },
    energy: { size: 1 },
    charge_power: { size: 1 },
    pack_resistance: { size: -1 },
    polarisation_resistance: { size: -1 },
    thermal_resistance: { size: -1 },
  },
  trays: {
    power_limit: { size: 1 },
    capacitance: { size: 1 },
    esr: { size: -1 },
    leakage: { size: 1 },
    bus_current_limit: { size: 1, volts: -1 },
    capacitor_current_limit: { size: 1 },
    capacitor_current_rms_rating: { size: 1 },
    power_slew: { size: 1 },
    standing_loss: { size: 1 },
    output_capacitance: { size: 1, volts: -2 },
    output_esr: { size: -1, volts: 2 },
    thermal_resistance: { size: -1 },
  },
  banks: {
    capacitance: { size: 1 },
    esr: { size: -1 },
    ripple_current_rating: { size: 1 },
    thermal_resistance: { size: -1 },
  },
  sleds: {
    peak_power: { size: 1 },
    input_capacitance: { size: 1, volts: -2 },
    input_esr: { size: -1, volts: 2 },
    ceramic_capacitance: { size: 1, volts: -2 },
    ceramic_esr: { size: -1, volts: 2 },
    constant_power_voltage: { volts: 1 },
    cut_off_voltage: { volts: 1 },
    restart_voltage: { volts: 1 },
    inrush_current: { size: 1, volts: -1 },
  },
};

/** Firmware's numbers that go with the voltage of the bus. */
export const firmwareVoltLaws: Laws = {
  'share.path_resistance': { volts: 2 },
  'share.trim_limit': { volts: 1 },
  'handover.trigger_voltage': { volts: 1 },
  'handover.set_point_on_loss': { volts: 1 },
  'handover.set_point_asleep': { volts: 1 },
};

/** What a number is multiplied by, at a size and a voltage over those of the model it comes from. */
export function factorOf(
  { size, volts }: Law,
  by: { readonly size: number; readonly volts: number },
): number {
  const powers: Readonly<Record<number, (x: number) => number>> = {
    [-2]: (x) => 1 / (x * x),
    [-1]: (x) => 1 / x,
    1: (x) => x,
    2: (x) => x * x,
  };
  const ofSize = size === undefined ? 1 : powers[size]!(by.size);
  return ofSize * (volts === undefined ? 1 : powers[volts]!(by.volts));
}
