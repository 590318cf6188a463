/** One sample of the tray group: filtered powers of sources and trays, then each tray's capacitor and bus voltage. */
import type { Site } from '../site.ts';

/** Values of a sample of `trays` trays, and how many of them come from elsewhere. */
export const sampleSize = (trays: number): number => 2 + 2 * trays;
export const travelling = 2;

/** Writes what is there now. */
export function takeSample(out: Float64Array, { sensor, trays }: Site): void {
  out[0] = sensor.sources_W();
  out[1] = sensor.trays_W();
  for (let k = 0; k < trays.count; k++) {
    out[2 + k] = trays.capacitor_V(k);
    out[2 + trays.count + k] = trays.bus_V(k);
  }
}

/** The sample that a task has read, by names. */
export class TraySample {
  private values: Float64Array;
  private readonly count: number;

  constructor(trays: number) {
    this.count = trays;
    this.values = new Float64Array(sampleSize(trays));
  }

  /** Looks at another sample from now on. */
  read(values: Float64Array): void {
    this.values = values;
  }

  get sources_W(): number {
    return this.values[0]!;
  }

  get trays_W(): number {
    return this.values[1]!;
  }

  capacitor_V(k: number): number {
    return this.values[2 + k]!;
  }

  bus_V(k: number): number {
    return this.values[2 + this.count + k]!;
  }
}
