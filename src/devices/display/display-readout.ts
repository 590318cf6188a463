import { Readout } from '../readout.ts';
import type { Display } from './display.ts';

/** A channel for each number, in their order. */
export class DisplayReadout extends Readout {
  private readonly display: Display;

  constructor(display: Display) {
    super(
      display.numbers.map(({ owner, quantity, unit }) => ({ kind: 'own', quantity, unit, owners: [owner] })),
    );
    this.display = display;
  }

  override read(out: Float64Array, _x: Float64Array, _v: Float64Array): void {
    const { count, values } = this.display;
    if (count === 0) return;
    const o = this.at[0]!;
    for (let k = 0; k < count; k++) out[o + k] = values[k]!;
  }
}
