/**
 * What keeps the trays charged beside the smoothing, of every tray for itself:
 *   P_soc = clamp((E* − E)/τ_soc + z, ±P_soc,max)      z ← z + (T_ts/T_i)(E* − E)/τ_soc while P_soc is not clamped
 *   P_bal = W (charge − mean charge)/τ_b               sums to zero: trays even out without the source seeing it
 */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import type { Firmware } from '../../scenario/scenario.ts';
import { scheduledEnergy_J } from './charge.ts';
import type { TraySample } from './tray-sample.ts';

export class ChargeKeeper {
  /** z of each tray [W]. */
  readonly integral_W: Float64Array;
  /** By how much of its window each tray's measured charge is off. */
  readonly shift: Float64Array;
  private readonly values: Firmware['smoothing'];
  private readonly trays: TrayPorts;

  constructor(trays: TrayPorts, values: Firmware['smoothing']) {
    this.trays = trays;
    this.values = values;
    this.integral_W = new Float64Array(trays.count);
    this.shift = new Float64Array(trays.count);
  }

  /** Energy in tray k's capacitor as it measures it, at voltage u [J]. */
  measured_J(k: number, u: number): number {
    const { ratings } = this.trays;
    return ratings.energy_J(k, u) + this.shift[k]! * ratings.window_J[k]!;
  }

  /** Mean charge of the trays on line, each by its own window; NaN where nobody balances. */
  mean(sample: TraySample): number {
    const { trays } = this;
    if (!(this.values.balance_time_s > 0)) return Number.NaN;
    let held = 0;
    let window = 0;
    for (let k = 0; k < trays.count; k++) {
      if (!trays.isAlive(k)) continue;
      held += this.measured_J(k, sample.capacitor_V(k)) - trays.ratings.lowest_J[k]!;
      window += trays.ratings.window_J[k]!;
    }
    return held / window;
  }

  /**
   * What is asked of tray k beside `smooth_W` of smoothing: smooth − P_soc + P_bal [W]; z goes on. u: its capacitor
   * voltage; `smoothed_W`: the load that the schedule follows; n: trays on line; `mean`: their mean charge, NaN where they
   * are not balanced.
   */
  asked_W(k: number, smooth_W: number, u: number, smoothed_W: number, n: number, mean: number): number {
    const { values, integral_W } = this;
    const { ratings } = this.trays;
    const measured = this.measured_J(k, u);
    const wanted = scheduledEnergy_J(values, ratings, k, smoothed_W, n);
    const pull = (wanted - measured) / values.charge_time_s;
    const limit = values.charge_power_limit_W;
    let charge = pull + integral_W[k]!;
    if (charge > limit) charge = limit;
    else if (charge < -limit) charge = -limit;
    else integral_W[k]! += (values.period_s / values.charge_integral_time_s) * pull;
    const asked = smooth_W - charge;
    if (Number.isNaN(mean)) return asked;
    return asked + (measured - ratings.lowest_J[k]! - mean * ratings.window_J[k]!) / values.balance_time_s;
  }
}
