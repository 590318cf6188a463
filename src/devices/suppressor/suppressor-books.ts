import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Suppressors } from './suppressor.ts';

/** What suppressors take from the bus; their heat goes to the air and counts as lost at once. */
export class SuppressorBooks extends Books {
  private readonly suppressors: Suppressors;
  private readonly taken_J: Float64Array;

  constructor(suppressors: Suppressors) {
    super();
    this.suppressors = suppressors;
    this.taken_J = new Float64Array(suppressors.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { suppressors, taken_J } = this;
    const { v0, v1 } = ends;
    const { node } = suppressors.columns;
    for (let k = 0; k < suppressors.count; k++) {
      const a = v0[node[k]!]!;
      const b = v1[node[k]!]!;
      taken_J[k]! += ((p * suppressors.taken_A(k, a) + q * suppressors.taken_A(k, b)) * (a + b)) / 2;
    }
  }

  override accounts(): readonly Account[] {
    return [{ kind: 'loss', cause: 'suppressor', owners: this.suppressors.names, energy_J: this.taken_J }];
  }
}
