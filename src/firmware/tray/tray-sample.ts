/** One sample of the tray group: filtered powers of sources and trays, then each tray's capacitor and bus voltage. */
import type { Site } from '../site.ts';

/** Values of a sample of `trays` trays, and how many of them come from elsewhere. */
export const sampleSize = (trays: number): number => 2 + 2 * trays;
export const travelling = 2;

/** Writes what is there now. */
export function sampleTrays(out: Float64Array, { sensor, trays }: Site): void {
  out[0] = sensor.sources_W();
  out[1] = sensor.trays_W();
  trays.sampleVoltages(out, travelling);
}

/** The sample that a task has read, by names. */
export class TraySample {
  /** Filtered powers of all sources and of all trays [W]. */
  sources_W = 0;
  trays_W = 0;
  /** Of each tray's capacitor, and of the bus at it [V]. */
  readonly capacitor_V: Float64Array;
  readonly bus_V: Float64Array;

  constructor({ trays, loops }: Site) {
    this.capacitor_V = loops.column(trays.count);
    this.bus_V = loops.column(trays.count);
  }

  read(values: Float64Array): void {
    const { capacitor_V, bus_V } = this;
    const n = capacitor_V.length;
    this.sources_W = values[0]!;
    this.trays_W = values[1]!;
    for (let k = 0; k < n; k++) {
      capacitor_V[k] = values[travelling + k]!;
      bus_V[k] = values[travelling + n + k]!;
    }
  }
}
