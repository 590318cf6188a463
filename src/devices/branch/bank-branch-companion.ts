import type { BankCompanion } from '../bank/bank-companion.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Branches } from './branch.ts';

/**
 * Beside the banks' capacitance, after their companion has begun: the same step as beside trays', but the bank's current
 * follows its capacitance within the step, so that what this gains, (p i_s0 + q i_s1)/C, is there before the solve.
 */
export class BankBranchCompanion extends Companion {
  private readonly branches: Branches;
  private readonly banks: BankCompanion;

  constructor(branches: Branches, banks: BankCompanion) {
    super();
    this.branches = branches;
    this.banks = banks;
  }

  override prepare(_q: number): void {}

  override begin(ends: Ends, p: number, q: number): void {
    const { branches, banks } = this;
    if (branches.count === 0) return;
    const { count, offset, columns } = branches;
    const { host, beside, capacitance_F, conductance_S } = columns;
    const { x0, dx0, x1, current_A } = ends;
    branches.flow(dx0, x0, ends.v0);
    for (let k = 0; k < count; k++) {
      const at = beside[k]!;
      const u0 = x0[at]!;
      const foreseen = u0 + (p + q) * dx0[at]!;
      const kappa = (q * conductance_S[k]!) / capacitance_F[k]!;
      const past = x0[offset + k]! + p * dx0[offset + k]!;
      const u = (past + kappa * foreseen) / (1 + kappa);
      x1[offset + k] = u;
      const gained_C = conductance_S[k]! * (p * (x0[offset + k]! - u0) + q * (u - foreseen));
      banks.lift(host[k]!, gained_C / branches.hostCapacitance_F(k, foreseen), current_A);
    }
  }
}
