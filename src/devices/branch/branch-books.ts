import { type Account, Books } from '../books.ts';
import type { Ends } from '../ends.ts';
import type { Branches } from './branch.ts';

/** Heat in the resistance of slow branches. */
export class BranchBooks extends Books {
  private readonly branches: Branches;
  private readonly lost_J: Float64Array;

  constructor(branches: Branches) {
    super();
    this.branches = branches;
    this.lost_J = new Float64Array(branches.count);
  }

  override take(p: number, q: number, ends: Ends, _shown: Float64Array): void {
    const { x0, x1 } = ends;
    const { lost_J } = this;
    const { count, offset, columns } = this.branches;
    const { beside, conductance_S } = columns;
    for (let k = 0; k < count; k++) {
      const at = beside[k]!;
      const drop = (x0[offset + k]! + x1[offset + k]! - x0[at]! - x1[at]!) / 2;
      lost_J[k]! += (p + q) * conductance_S[k]! * drop * drop;
    }
  }

  override accounts(): readonly Account[] {
    return [{ kind: 'loss', cause: 'slow branch', owners: this.branches.names, energy_J: this.lost_J }];
  }

  override stored(x: Float64Array, put: (store: string, energy_J: number) => void): void {
    const { branches } = this;
    branches.names.forEach((name, k) => {
      put(`slow branch ${name}`, branches.energy_J(k, x));
    });
  }
}
