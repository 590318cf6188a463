import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Branches } from './branch.ts';

/**
 * Beside the trays' capacitance, after their companion: u_s1 = (u_p + κ u)/(1 + κ), κ = q G_s/C_s, u_p = u_s0 + p du_s0, with the
 * capacitance's own voltage u as its slope foresees it; that one then gains q i_s1/C. Errors are of third order in a step, as the
 * trays' own.
 */
export class TrayBranchCompanion extends Companion {
  private readonly branches: Branches;

  constructor(branches: Branches) {
    super();
    this.branches = branches;
  }

  override prepare(_q: number): void {}

  override begin(ends: Ends, _p: number, _q: number): void {
    if (this.branches.count === 0) return;
    this.branches.flow(ends.dx0, ends.x0, ends.v0);
  }

  override finish(ends: Ends, p: number, q: number): void {
    const { branches } = this;
    if (branches.count === 0) return;
    const { count, offset, columns } = branches;
    const { beside, capacitance_F, conductance_S } = columns;
    const { x0, dx0, x1 } = ends;
    for (let k = 0; k < count; k++) {
      const at = beside[k]!;
      const foreseen = x0[at]! + (p + q) * dx0[at]!;
      const kappa = (q * conductance_S[k]!) / capacitance_F[k]!;
      const past = x0[offset + k]! + p * dx0[offset + k]!;
      const u = (past + kappa * foreseen) / (1 + kappa);
      x1[offset + k] = u;
      x1[at]! += (q * conductance_S[k]! * (u - foreseen)) / branches.hostCapacitance_F(k, foreseen);
    }
  }
}
