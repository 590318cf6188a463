/** What firmware does to capacitors: those of a sled leave with it. */
import type { Plant } from '../plant.ts';
import type { Capacitors } from './capacitor.ts';

export class CapacitorPorts {
  readonly names: readonly string[];
  private readonly capacitors: Capacitors;
  private readonly plant: Plant;

  constructor(capacitors: Capacitors, plant: Plant) {
    this.names = capacitors.names;
    this.capacitors = capacitors;
    this.plant = plant;
  }

  /** Jump: an empty capacitor in its place. Returns the energy that the old one held [J]. */
  replace(k: number): number {
    const { x } = this.plant;
    const energy_J = this.capacitors.energy_J(k, x);
    x[this.capacitors.offset + k] = 0;
    return energy_J;
  }
}
