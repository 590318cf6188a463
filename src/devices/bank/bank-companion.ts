import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Banks } from './bank.ts';

/** i1 = keep i_p + admittance (u_p − v1), u1 = u_p − q i1/C; keep = 1/(1 + qR/L + q²/LC), admittance = (q/L) keep. */
export class BankCompanion extends Companion {
  private readonly banks: Banks;
  private readonly admittance_S: Float64Array;
  private readonly keep: Float64Array;
  /** Current at v1 = 0 [A], and u_p [V]. */
  private readonly past_A: Float64Array;
  private readonly past_V: Float64Array;

  constructor(banks: Banks) {
    super();
    this.banks = banks;
    this.admittance_S = new Float64Array(banks.count);
    this.keep = new Float64Array(banks.count);
    this.past_A = new Float64Array(banks.count);
    this.past_V = new Float64Array(banks.count);
  }

  override prepare(q: number): void {
    const { count, inductance_H, resistance_ohm, capacitance_F } = this.banks;
    for (let k = 0; k < count; k++) {
      const L = inductance_H[k]!;
      const den = 1 + (q * resistance_ohm[k]!) / L + (q * q) / (L * capacitance_F[k]!);
      this.admittance_S[k] = q / L / den;
      this.keep[k] = 1 / den;
    }
  }

  override stamp(matrix: NodalMatrix): void {
    const { count, node } = this.banks;
    for (let k = 0; k < count; k++) matrix.addToGround(node[k]!, this.admittance_S[k]!);
  }

  override begin(ends: Ends, q: number): void {
    this.banks.flow(ends.dx0, ends.x0, ends.v0);
    const { count, offset, node } = this.banks;
    const { x0, dx0, fixed } = ends;
    const { admittance_S, keep, past_A, past_V } = this;
    for (let k = 0; k < count; k++) {
      const u = x0[offset + count + k]! + q * dx0[offset + count + k]!;
      const i = keep[k]! * (x0[offset + k]! + q * dx0[offset + k]!) + admittance_S[k]! * u;
      past_V[k] = u;
      past_A[k] = i;
      fixed[node[k]!]! += i;
    }
  }

  /** Raises the voltage at which the capacitors of bank k end without current, by what flows beside them in the step. */
  lift(k: Int, by_V: number, fixed: Float64Array): void {
    const { admittance_S, past_A, past_V } = this;
    const i = admittance_S[k]! * by_V;
    past_V[k]! += by_V;
    past_A[k]! += i;
    fixed[this.banks.node[k]!]! += i;
  }

  override finish(ends: Ends, q: number): void {
    const { count, offset, node, capacitance_F } = this.banks;
    const { x1, v1 } = ends;
    const { admittance_S, past_A, past_V } = this;
    for (let k = 0; k < count; k++) {
      const i = past_A[k]! - admittance_S[k]! * v1[node[k]!]!;
      x1[offset + k] = i;
      x1[offset + count + k] = past_V[k]! - (q * i) / capacitance_F[k]!;
    }
  }
}
