import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { CorrectedCompanion, currentTolerance_A } from '../corrected-companion.ts';
import type { Ends } from '../ends.ts';
import type { Sleds } from './sled.ts';

/**
 * P1 = (P0 + p dP0 + κ P_d1)/(1 + κ), κ = q/τ_p: the power does not see the bus. Its current is made straight about the
 * expected voltage, with the slope that the matrix carries, and corrected by solving again.
 */
export class SledCompanion extends CorrectedCompanion {
  private readonly sleds: Sleds;
  /** Place of the first sled's current, as used in the last solve, but for what the carried slope makes. */
  private readonly at: Int;
  /** κ and 1/(1 + κ). */
  private readonly kappa: Float64Array;
  private readonly rKappa: Float64Array;

  constructor(sleds: Sleds, at: Int) {
    super();
    this.sleds = sleds;
    this.at = at;
    this.kappa = new Float64Array(sleds.count);
    this.rKappa = new Float64Array(sleds.count);
  }

  override prepare(q: number): void {
    const { count, columns } = this.sleds;
    for (let k = 0; k < count; k++) {
      this.kappa[k] = q / columns.power_lag_s[k]!;
      this.rKappa[k] = 1 / (1 + this.kappa[k]!);
    }
  }

  override stamp(matrix: NodalMatrix): void {
    const { count, node, carried_S } = this.sleds;
    for (let k = 0; k < count; k++) matrix.addToGround(node[k]!, -carried_S[k]!);
  }

  override begin(ends: Ends, p: number, _q: number): void {
    this.sleds.flow(ends.dx0, ends.x0);
    const { count, offset: o, demand1_W, allowed } = this.sleds;
    const { x0, dx0, x1 } = ends;
    const { kappa, rKappa } = this;
    for (let k = 0; k < count; k++) {
      const past = x0[o + k]! + p * dx0[o + k]!;
      x1[o + k] = (past + kappa[k]! * demand1_W[k]! * allowed[k]!) * rKappa[k]!;
    }
  }

  /** −i(v) − carried · v at the expected voltage. */
  override add(ends: Ends, _q: number, damped: boolean): void {
    const { sleds, at } = this;
    const { count, offset, node, carried_S } = sleds;
    const { x1, expected, current_A } = ends;
    for (let k = 0; k < count; k++) {
      const v = expected[node[k]!]!;
      const i = -(sleds.drawn_A(k, x1[offset + k]!, v) + carried_S[k]! * v);
      current_A[at + k] = damped ? (i + current_A[at + k]!) / 2 : i;
    }
  }

  override isOff(ends: Ends, _q: number): boolean {
    const { sleds, at } = this;
    const { count, offset, node, carried_S } = sleds;
    const { x1, v1, current_A } = ends;
    let worst = 0;
    for (let k = 0; k < count; k++) {
      const v = v1[node[k]!]!;
      const off_A = Math.abs(sleds.drawn_A(k, x1[offset + k]!, v) + carried_S[k]! * v + current_A[at + k]!);
      worst = off_A > worst ? off_A : worst;
    }
    return worst > currentTolerance_A;
  }
}
