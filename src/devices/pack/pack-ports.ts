/** What firmware senses of the packs behind battery shelves. */
import type { Plant } from '../plant.ts';
import type { Packs } from './pack.ts';

export class PackPorts {
  readonly count: number;
  readonly names: readonly string[];
  private readonly packs: Packs;
  private readonly plant: Plant;

  constructor(packs: Packs, plant: Plant) {
    this.count = packs.count;
    this.names = packs.names;
    this.packs = packs;
    this.plant = plant;
  }

  charge_ratio(k: number): number {
    return this.plant.x[this.packs.offset + k]!;
  }

  private polarisation_V(k: number): number {
    return this.plant.x[this.packs.offset + this.packs.count + k]!;
  }

  temperature_degC(k: number): number {
    return this.plant.x[this.packs.offset + 2 * this.packs.count + k]!;
  }

  /** Power that its shelf gives to the bus, negative while it charges [W]. */
  power_W(k: number): number {
    return this.packs.power_W(k, this.plant.x, this.plant.v);
  }

  /** Most power that it can give to the bus as it is [W]. */
  most_W(k: number): number {
    return this.packs.most_W(k, this.charge_ratio(k), this.polarisation_V(k));
  }

  /** Terminal voltage while it gives p to the bus [V]. */
  terminal_V(k: number, p: number): number {
    return this.packs.terminal_V(k, p, this.charge_ratio(k), this.polarisation_V(k));
  }

  /** Voltage behind its resistance R0 while it gives p to the bus [V]. */
  behind_V(k: number, p: number): number {
    const i = this.packs.current_A(k, p, this.charge_ratio(k), this.polarisation_V(k));
    return this.terminal_V(k, p) + this.resistance_ohm(k) * i;
  }

  resistance_ohm(k: number): number {
    return this.packs.columns.resistance_ohm[k]!;
  }

  /** Efficiency of its converter. */
  efficiency_ratio(k: number): number {
    return this.packs.columns.efficiency_ratio[k]!;
  }
}
