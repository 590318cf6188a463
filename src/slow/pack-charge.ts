/**
 * Charge of a battery shelf's packs, z, over minutes and longer. Its polarisation of seconds is at its end, R_1 i, so that the
 * pack is its open-circuit voltage behind R = R_0 + R_1:
 *
 *   dz/dt = −i/Q,   i by `devices/pack/pack-current.ts` for the power into the bus
 *   at rest  dz/dt = −z/τ_sd
 *   charging with the least of  P_ch · derating(T),  what the firmware granted it in a run of seconds,
 *                               V_full I_cv/η,  I_cv = (V_full − OCV(z))/R     (firmware/battery/charge-limit.ts)
 */

import type { Packs } from '../devices/pack/pack.ts';
import { packCurrent_A } from '../devices/pack/pack-current.ts';
import { rechargeColumns } from '../firmware/battery/battery-columns.ts';
import {
  chargeDerating,
  currentAtFull_A,
  endCurrent_A,
  powerAtFull_W,
} from '../firmware/battery/charge-limit.ts';
import type { RechargeColumns } from '../firmware/battery/recharge.ts';
import { assemble } from '../network/network.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { SlowLaw } from './slow-law.ts';

/** Charge over which the rate's slope is taken. */
const nudge = 1e-6;

export class PackCharge {
  private readonly packs: Packs;
  private readonly recharge: RechargeColumns;
  private readonly scenario: Scenario;

  constructor(scenario: Scenario) {
    this.scenario = scenario;
    this.packs = assemble(scenario).packs;
    this.recharge = rechargeColumns(scenario);
  }

  /** R_0 + R_1 of pack k [Ω]. */
  resistance_ohm(k: number): number {
    const { resistance_ohm, polarisation_ohm } = this.packs.columns;
    return resistance_ohm[k]! + polarisation_ohm[k]!;
  }

  /** Current of pack k at charge z for power into the bus [A]. */
  current_A(k: number, z: number, power_W: number): number {
    const { efficiency_ratio } = this.packs.columns;
    return packCurrent_A(
      power_W,
      efficiency_ratio[k]!,
      this.packs.openCircuit_V(k, z),
      this.resistance_ohm(k),
    );
  }

  /** Power from the bus that pack k takes at charge z and temperature T while it charges [W]. */
  taken_W(k: number, z: number, T_degC: number, granted_W: number): number {
    const { power_W, windows, full_V } = this.recharge;
    const most_W = power_W[k]! * chargeDerating(windows[k]!, T_degC);
    const atFull_W = powerAtFull_W(full_V[k]!, this.atFull_A(k, z), this.packs.columns.efficiency_ratio[k]!);
    return Math.max(0, Math.min(most_W, granted_W, atFull_W));
  }

  /** The firmware calls the charge done: the current at full voltage is down at the end's, or nothing more goes in. */
  isFull(k: number, z: number): boolean {
    const { end_ratio, power_W, full_V } = this.recharge;
    const end_A = endCurrent_A(
      end_ratio[k]!,
      power_W[k]!,
      this.packs.columns.efficiency_ratio[k]!,
      full_V[k]!,
    );
    return z >= 1 || this.atFull_A(k, z) <= end_A;
  }

  /** Where carrying ends: charge or terminal voltage at its least, as the firmware has it. */
  isEmpty(k: number, z: number, power_W: number): boolean {
    const { charge_min_ratio, voltage_min_ratio, pack_voltage_V } = this.scenario.batteries[k]!.values;
    const behind_V = this.packs.openCircuit_V(k, z) - this.resistance_ohm(k) * this.current_A(k, z, power_W);
    return z <= charge_min_ratio || behind_V < voltage_min_ratio * pack_voltage_V;
  }

  /** Of z while it gives (or takes, where negative) this power. */
  moved(k: number, power_W: number): SlowLaw {
    return this.law(k, () => power_W);
  }

  charging(k: number, T_degC: number, granted_W: number): SlowLaw {
    return this.law(k, (z) => -this.taken_W(k, z, T_degC, granted_W));
  }

  resting(k: number): SlowLaw {
    const time_s = this.scenario.batteries[k]!.values.self_discharge_s;
    if (!(time_s > 0)) return { rate: () => 0, slope: () => 0 };
    return { rate: (z) => -z / time_s, slope: () => -1 / time_s };
  }

  private atFull_A(k: number, z: number): number {
    return currentAtFull_A(this.recharge.full_V[k]!, this.packs.openCircuit_V(k, z), this.resistance_ohm(k));
  }

  private law(k: number, power_W: (z: number) => number): SlowLaw {
    const charge_C = this.packs.columns.charge_C[k]!;
    const rate = (z: number): number => -this.current_A(k, z, power_W(z)) / charge_C;
    return { rate, slope: (z) => (rate(z + nudge) - rate(z)) / nudge };
  }
}
