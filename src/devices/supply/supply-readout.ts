import { Readout } from '../readout.ts';
import type { Supplies } from './supply.ts';

/** Line voltage at the shelves of every feeder that gives way. */
export class SupplyReadout extends Readout {
  private readonly supplies: Supplies;

  constructor(supplies: Supplies) {
    super([{ kind: 'supply-voltage', quantity: 'line_voltage', unit: 'V', owners: supplies.names }]);
    this.supplies = supplies;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { supplies } = this;
    const { count, line_V } = supplies;
    if (count === 0) return;
    supplies.look(x);
    const o = this.at[0]!;
    for (let f = 0; f < count; f++) out[o + f] = line_V[f]!;
  }
}
