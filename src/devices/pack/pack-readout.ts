import { Readout } from '../readout.ts';
import type { Packs } from './pack.ts';

export class PackReadout extends Readout {
  private readonly packs: Packs;

  constructor(packs: Packs) {
    super([{ kind: 'battery-charge', quantity: 'charge', unit: 'ratio', owners: packs.names }]);
    this.packs = packs;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { count, offset } = this.packs;
    const o = this.at[0]!;
    for (let k = 0; k < count; k++) out[o + k] = x[offset + k]!;
  }
}
