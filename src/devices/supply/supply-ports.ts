/** What is sensed of the lines of feeders that give way, and what events make of them. */
import type { Moment, Plant } from '../plant.ts';
import { largestPower } from './line-under-load.ts';
import type { Supplies } from './supply.ts';

export class SupplyPorts {
  readonly count: number;
  readonly names: readonly string[];
  private readonly supplies: Supplies;
  private readonly plant: Plant;

  constructor(supplies: Supplies, plant: Plant) {
    this.count = supplies.count;
    this.names = supplies.names;
    this.supplies = supplies;
    this.plant = plant;
  }

  /** Supply of shelf k; −1 where its feeder is stiff. */
  of(k: number): number {
    return this.supplies.feeds[k]!;
  }

  /** Shelves of supply f. */
  shelvesOf(f: number): readonly number[] {
    return Array.from(this.supplies.feeds.keys()).filter((k) => this.of(k) === f);
  }

  nominal_V(f: number): number {
    return this.supplies.columns.nominal_V[f]!;
  }

  /** Line voltage at its shelves over nominal. */
  ratio(f: number, at: Moment = this.plant): number {
    this.supplies.look(at.x);
    return this.supplies.line_V[f]! / this.nominal_V(f);
  }

  /** No voltage is left at which it carries what is taken. */
  isBeyond(f: number, at: Moment = this.plant): boolean {
    this.supplies.look(at.x);
    return this.supplies.beyond[f] === 1;
  }

  /** Power taken, by all cabinets on it [W]. */
  taken_W(f: number): number {
    this.supplies.look(this.plant.x);
    return this.supplies.active_W[f]!;
  }

  /** What is taken over the most that it carries at that power factor. */
  loading(f: number): number {
    const { supplies } = this;
    supplies.look(this.plant.x);
    const { resistance_ohm, reactance_ohm } = supplies.columns;
    const P = supplies.active_W[f]!;
    if (!(P > 0)) return 0;
    const t = supplies.reactive_W[f]! / P;
    return P / largestPower(supplies.open_V[f]!, resistance_ohm[f]!, reactance_ohm[f]!, t);
  }

  /** The open-circuit voltage comes to this share of nominal. */
  scale(f: number, ratio: number): void {
    this.supplies.open_V[f] = ratio * this.nominal_V(f);
  }
}
