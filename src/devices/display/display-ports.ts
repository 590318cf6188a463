/** What firmware may do with shown numbers: write those of one owner. */
import type { Display } from './display.ts';

export class DisplayPorts {
  private readonly display: Display;

  constructor(display: Display) {
    this.display = display;
  }

  /** Numbers of an owner, in their order. */
  show(owner: string, values: Float64Array): void {
    const from = this.display.numbers.findIndex((number) => number.owner === owner);
    if (from >= 0) this.display.values.set(values, from);
  }
}
