import { Readout } from '../readout.ts';
import type { Sleds } from './sled.ts';

/** Power that each sled takes from the bus, a short at it included. */
export class SledReadout extends Readout {
  private readonly sleds: Sleds;

  constructor(sleds: Sleds) {
    super([{ kind: 'sled-power', quantity: 'power', unit: 'W', owners: sleds.names }]);
    this.sleds = sleds;
  }

  override read(out: Float64Array, x: Float64Array, v: Float64Array): void {
    const { sleds } = this;
    const { count, offset, node } = sleds;
    const o = this.at[0]!;
    for (let k = 0; k < count; k++) {
      const vk = v[node[k]!]!;
      out[o + k] = sleds.drawn_A(k, x[offset + k]!, vk) * vk;
    }
  }
}
