/**
 * What of a cabinet takes many periods of its load to come to rest: smoothed load, tray voltages, charge integrals and slow
 * branches, read and written over their scale (rated power, highest voltage, most charging power).
 */
import { type Recovery, recoveryOver } from '../../firmware/tray/recovery.ts';
import type { Cabinet } from '../cabinet.ts';

/** Passes of Newton's method from an energy to its voltage: the energy is nearly a square. */
const passes = 4;

export class SlowStates {
  private readonly cabinet: Cabinet;
  private readonly count: number;
  private readonly charging_W: number;
  private readonly recovery: Recovery;

  /** `period`: of the load [ticks]. */
  constructor(cabinet: Cabinet, period: number) {
    const { network } = cabinet;
    const { smoothing } = network.scenario.firmware;
    this.cabinet = cabinet;
    this.count = network.trays.count;
    this.charging_W = smoothing.charge_power_limit_W;
    this.recovery = recoveryOver(smoothing, period * network.scenario.tick_s);
  }

  read(): Float64Array {
    const { count, cabinet } = this;
    const { network, controls, stepper } = cabinet;
    const { trays, scenario } = network;
    const { smoothed_W, charge } = controls.smoothing;
    const { trayBranches } = network;
    const out = new Float64Array(1 + 2 * count + trayBranches.count);
    out[0] = smoothed_W / scenario.rated_W;
    for (let k = 0; k < count; k++) {
      out[1 + k] = trays.voltage_V(k, stepper.x0) / trays.columns.voltage_high_V[k]!;
      out[1 + count + k] = charge.integral_W[k]! / this.charging_W;
    }
    for (let k = 0; k < trayBranches.count; k++)
      out[1 + 2 * count + k] = stepper.x0[trayBranches.place('voltage_V', k)]! / this.branchScale_V(k);
    return out;
  }

  write(values: Float64Array): void {
    const { count, cabinet } = this;
    const { network, controls, stepper } = cabinet;
    const { trays, scenario } = network;
    const { voltage_low_V, voltage_high_V } = trays.columns;
    controls.smoothing.smoothed_W = values[0]! * scenario.rated_W;
    for (let k = 0; k < count; k++) {
      const [low, high] = [voltage_low_V[k]!, voltage_high_V[k]!];
      trays.charge(stepper.x0, k, Math.min(high, Math.max(low, values[1 + k]! * high)));
      controls.smoothing.charge.integral_W[k] = values[1 + count + k]! * this.charging_W;
    }
    const { trayBranches } = network;
    for (let k = 0; k < trayBranches.count; k++)
      stepper.x0[trayBranches.place('voltage_V', k)] = values[1 + 2 * count + k]! * this.branchScale_V(k);
  }

  /** Highest voltage of the tray that branch k stands beside [V]. */
  private branchScale_V(k: number): number {
    const { trays, trayBranches } = this.cabinet.network;
    return trays.columns.voltage_high_V[trayBranches.columns.host[k]!]!;
  }

  /** Whether the trays' own law keeps them charged, so that it is known how they come to rest. */
  get isForeseen(): boolean {
    return this.cabinet.controls.smoothing.law === null;
  }

  /** Where the states come to repeat when a period took them from `before` to `after`, by the slopes of the trays' law. */
  ahead(before: Float64Array, after: Float64Array): Float64Array {
    const { count, cabinet, recovery, charging_W } = this;
    const { trays, scenario } = cabinet.network;
    const out = after.slice();
    out[0] = before[0]! + (after[0]! - before[0]!) * recovery.smoothed;
    const planned_J = (k: number, states: Float64Array): number => {
      const { charge, count: online } = cabinet.controls.smoothing;
      return charge.scheduled_J(k, states[0]! * scenario.rated_W, online);
    };
    for (let k = 0; k < count; k++) {
      const high = trays.columns.voltage_high_V[k]!;
      const beyond_J = (states: Float64Array): number =>
        trays.energy_J(k, states[1 + k]! * high) - planned_J(k, states);
      const z = before[1 + count + k]!;
      const moved_W = (after[1 + count + k]! - z) * charging_W;
      const rest = recovery.charge(beyond_J(after) - beyond_J(before), moved_W);
      const energy_J = beyond_J(before) + rest.e_J + planned_J(k, out);
      out[1 + k] = this.voltageAt(k, energy_J, after[1 + k]! * high) / high;
      out[1 + count + k] = z + rest.z_W / charging_W;
    }
    return out;
  }

  /** Capacitor voltage at which tray k holds an energy, from one nearby [V]. */
  private voltageAt(k: number, energy_J: number, near_V: number): number {
    const { trays } = this.cabinet.network;
    let u = near_V;
    for (let pass = 0; pass < passes; pass++) {
      const d = 1e-6 * u;
      const slope = (trays.energy_J(k, u + d) - trays.energy_J(k, u - d)) / (2 * d);
      u += (energy_J - trays.energy_J(k, u)) / slope;
    }
    return u;
  }
}
