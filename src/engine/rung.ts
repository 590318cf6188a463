/** What steps whose end has one weight need: every kind's companion and the factored nodal matrix. Made once, prepared anew. */
import { type Companions, type CorrectedCompanions, companionsOf } from '../network/kinds.ts';
import type { Network } from '../network/network.ts';
import { NodalMatrix } from '../nodal/matrix.ts';

export class Rung {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly companions: Companions;
  readonly corrected: CorrectedCompanions;
  readonly matrix: NodalMatrix;

  constructor(network: Network) {
    const { companions, corrected } = companionsOf(network);
    this.companions = companions;
    this.corrected = corrected;
    this.matrix = new NodalMatrix(network.ordering);
  }

  /** Coefficients for steps whose end weighs `q_s`, and the conductances that stay with them. */
  prepare(q_s: number): void {
    const { matrix } = this;
    matrix.clear();
    for (const part of this.companions) {
      part.prepare(q_s);
      part.stamp(matrix);
    }
  }
}
