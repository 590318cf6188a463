import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Sleds } from './sled.ts';
import type { SledReadout } from './sled-readout.ts';

/** What sleds take from the bus, a short at one of them included. They store nothing: their capacitors are capacitors. */
export class SledBooks extends Books {
  private readonly sleds: Sleds;
  private readonly readout: SledReadout;
  private readonly taken_J: Float64Array;
  /** Power of each sled's converter at the start of the step, but for what a short takes [W]. */
  private readonly past_W: Float64Array;

  constructor(sleds: Sleds, readout: SledReadout) {
    super();
    this.sleds = sleds;
    this.readout = readout;
    this.taken_J = new Float64Array(sleds.count);
    this.past_W = new Float64Array(sleds.count);
  }

  override resume(x: Float64Array, v: Float64Array): void {
    const { sleds, past_W } = this;
    for (let k = 0; k < sleds.count; k++) {
      const vk = v[sleds.node[k]!]!;
      past_W[k] = sleds.drawn_A(k, x[sleds.offset + k]!, vk) * vk - sleds.short_S[k]! * vk * vk;
    }
  }

  override take(p: number, q: number, ends: Ends, shown: Float64Array): void {
    const { v0, v1 } = ends;
    const { taken_J, past_W } = this;
    const powersAt = this.readout.at[0]!;
    const { count, node, short_S } = this.sleds;
    for (let k = 0; k < count; k++) {
      const n = node[k]!;
      const P0 = past_W[k]!;
      const P1 = shown[powersAt + k]! - short_S[k]! * v1[n]! * v1[n]!;
      past_W[k] = P1;
      // A short is a resistance: its own law holds between the means, however fast it empties the capacitors.
      const mean_V = (v0[n]! + v1[n]!) / 2;
      taken_J[k]! += p * P0 + q * P1 + (p + q) * short_S[k]! * mean_V * mean_V;
    }
  }

  override accounts(): readonly Account[] {
    return [{ kind: 'load', cause: 'sled', owners: this.sleds.names, energy_J: this.taken_J }];
  }
}
