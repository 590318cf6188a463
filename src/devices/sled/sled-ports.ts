/**
 * What firmware senses of sleds and commands them. `at`: the moment that is looked at, the present one unless another is
 * named.
 */
import type { Moment, Plant } from '../plant.ts';
import type { Sleds } from './sled.ts';

export class SledPorts {
  readonly count: number;
  readonly names: readonly string[];
  private readonly sleds: Sleds;
  private readonly plant: Plant;

  constructor(sleds: Sleds, plant: Plant) {
    this.count = sleds.count;
    this.names = sleds.names;
    this.sleds = sleds;
    this.plant = plant;
  }

  /** Voltage at its input [V]. */
  input_V(k: number, at: Moment = this.plant): number {
    return at.v[this.sleds.node[k]!]!;
  }

  /** It hangs on the bus with its capacitors charged. */
  isPresent(k: number): boolean {
    return this.sleds.present[k] === 1;
  }

  setPresent(k: number, present: boolean): void {
    this.sleds.setPresent(k, present);
  }

  /** Share of its demand that it may draw. Returns how hard the change kicks the bus [W/s]. */
  allow(k: number, share: number): number {
    const { allowed, demand0_W, columns } = this.sleds;
    const change = Math.abs(share - allowed[k]!);
    allowed[k] = share;
    return (change * demand0_W[k]!) / columns.power_lag_s[k]!;
  }

  /** Jump: another sled in its place, without power, short or voltage at its input. */
  replace(k: number): void {
    const { sleds, plant } = this;
    plant.v[sleds.node[k]!] = 0;
    plant.x[sleds.offset + k] = 0;
    sleds.short(k, 0);
  }
}
