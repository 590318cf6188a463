import { Readout } from '../readout.ts';
import type { Suppressors } from './suppressor.ts';

/** Heat that stands in each suppressor, over its rated energy. */
export class SuppressorReadout extends Readout {
  private readonly suppressors: Suppressors;

  constructor(suppressors: Suppressors) {
    super([{ kind: 'suppressor-heat', quantity: 'suppressor', unit: 'ratio', owners: suppressors.names }]);
    this.suppressors = suppressors;
  }

  override read(out: Float64Array, x: Float64Array, _v: Float64Array): void {
    const { count, offset, columns } = this.suppressors;
    const o = this.at[0]!;
    for (let k = 0; k < count; k++) out[o + k] = x[offset + k]! / columns.suppressor_energy_J[k]!;
  }
}
