/**
 * A tray's own protection, whatever the group tells it: it stops for good when its capacitor is further outside the
 * voltage window than the trip margin, or when its bank has no operating point for the power it gives
 * (v_c² < 4 R P_cap). Sampled at each run of the smoothing task.
 */
import type { Int } from '../../base/int.ts';
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import type { Site } from '../site.ts';

export class TrayGuard {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  /** Voltages of each tray's capacitor beyond which it stops. */
  readonly lowest_V: Float64Array;
  readonly highest_V: Float64Array;
  readonly trays: TrayPorts;
  private readonly site: Site;

  constructor(site: Site) {
    const { voltage_low_V, voltage_high_V, trip_margin_ratio } = site.trays.ratings.columns;
    const margin = (k: number): number => trip_margin_ratio[k]! * (voltage_high_V[k]! - voltage_low_V[k]!);
    this.lowest_V = voltage_low_V.map((u, k) => u - margin(k));
    this.highest_V = voltage_high_V.map((u, k) => u + margin(k));
    this.trays = site.trays;
    this.site = site;
    site.loops.hold('TrayGuard', this);
  }

  /** The first tray from `from` on that must stop; −1: none. */
  firstAstray(from: Int): Int {
    const { trays, lowest_V, highest_V } = this;
    return trays.firstAstray(from, lowest_V, highest_V);
  }

  /** Tells which trays must stop, and why. */
  watch(drop: (k: number, why: string) => void): void {
    const { loops } = this.site;
    let k = loops.astray(this, 0);
    while (k >= 0) {
      drop(k, this.why(k));
      k = loops.astray(this, k + 1);
    }
  }

  private why(k: number): string {
    const { trays, log } = this.site;
    const u = trays.capacitor_V(k);
    if (u < this.lowest_V[k]!) return `capacitor at ${u.toFixed(2)} V, too empty`;
    if (u > this.highest_V[k]!) return `capacitor at ${u.toFixed(2)} V, too full`;
    const most = (u * u) / (4 * trays.ratings.columns.esr_ohm[k]!);
    const asked = trays.capacitorPower_W(k, trays.power_W(k));
    const text = `needs ${(asked / 1e3).toFixed(1)} kW of a bank that gives ${(most / 1e3).toFixed(1)} kW at most`;
    log.note(trays.names[k]!, 'tray-infeasible', text);
    return 'no operating point';
  }
}
