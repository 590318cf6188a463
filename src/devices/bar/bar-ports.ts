/** What firmware senses of bars and commands them. */
import type { Plant } from '../plant.ts';
import type { Bars } from './bar.ts';

export class BarPorts {
  readonly names: readonly string[];
  private readonly bars: Bars;
  private readonly plant: Plant;

  constructor(bars: Bars, plant: Plant) {
    this.names = bars.names;
    this.bars = bars;
    this.plant = plant;
  }

  /** Current from its `from` node to its `to` node [A]. */
  current_A(k: number): number {
    return this.plant.x[this.bars.offset + k]!;
  }

  /** Voltage from its `from` node to its `to` node [V]. */
  across_V(k: number): number {
    const { from, to } = this.bars;
    return this.plant.v[from[k]!]! - this.plant.v[to[k]!]!;
  }

  resistance_ohm(k: number): number {
    return this.bars.resistance_ohm[k]!;
  }

  isOpen(k: number): boolean {
    return this.bars.open[k] === 1;
  }

  /** Its nodes. */
  ends(k: number): readonly [from: number, to: number] {
    return [this.bars.from[k]!, this.bars.to[k]!];
  }

  /** Opens it or closes it with this resistance. */
  command(k: number, resistance_ohm: number, open: boolean): void {
    this.bars.setResistance(k, resistance_ohm);
    this.bars.setOpen(k, open);
    this.plant.restamp();
  }

  /** Jump: its current stands at `i` at once [A]. */
  jump(k: number, i: number): void {
    this.plant.x[this.bars.offset + k] = i;
  }
}
