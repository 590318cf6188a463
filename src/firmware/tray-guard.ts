/**
 * A tray's own protection, whatever the group tells it: it stops for good when its capacitor is further outside the
 * voltage window than the trip margin, or when its bank has no operating point for the power it gives
 * (v_c² < 4 R P_cap). Sampled at each run of the smoothing task.
 */
import type { Trays } from '../devices/tray/tray.ts';
import type { Log } from '../events/log.ts';
import type { Plant } from './task.ts';

export class TrayGuard {
  private readonly lowest_V: Float64Array;
  private readonly highest_V: Float64Array;
  private readonly trays: Trays;
  private readonly plant: Plant;
  private readonly log: Log;

  constructor(trays: Trays, plant: Plant, log: Log) {
    const { low_V, high_V, tripMargin } = trays.columns;
    const margin = (k: number): number => tripMargin[k]! * (high_V[k]! - low_V[k]!);
    this.lowest_V = low_V.map((u, k) => u - margin(k));
    this.highest_V = high_V.map((u, k) => u + margin(k));
    this.trays = trays;
    this.plant = plant;
    this.log = log;
  }

  /** Tells which trays must stop, and why. */
  watch(drop: (k: number, why: string) => void): void {
    const { trays, plant } = this;
    const n = trays.count;
    for (let k = 0; k < n; k++) {
      if (!trays.alive[k]) continue;
      const p = trays.delivered_W(k, plant.x[trays.offset + k]!, plant.v[trays.node[k]!]!);
      const u = plant.x[trays.offset + n + k]!;
      if (u < this.lowest_V[k]!) drop(k, `capacitor at ${u.toFixed(2)} V, too empty`);
      else if (u > this.highest_V[k]!) drop(k, `capacitor at ${u.toFixed(2)} V, too full`);
      else if (trays.isInfeasible(k, p, u)) {
        const most = (u * u) / (4 * trays.columns.esr_ohm[k]!);
        const asked = trays.capacitorPower_W(k, p);
        const text = `needs ${(asked / 1e3).toFixed(1)} kW of a bank that gives ${(most / 1e3).toFixed(1)} kW at most`;
        this.log.note(trays.names[k]!, 'tray-infeasible', text);
        drop(k, 'no operating point');
      }
    }
  }
}
