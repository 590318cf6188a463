import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Banks } from './bank.ts';

/** i1 = keep i_p + admittance (u_p − v1), its current at v1 = 0 without the last term, u1 = u_p − q i1/C; keep = 1/(1 + qR/L + q²/LC), admittance = (q/L) keep. */
export class BankCompanion extends Companion {
  private readonly banks: Banks;
  /** Place of the first bank's current. */
  private readonly at: Int;
  private readonly admittance_S: Float64Array;
  private readonly keep: Float64Array;
  /** u_p [V]. */
  private readonly past_V: Float64Array;

  constructor(banks: Banks, at: Int) {
    super();
    this.banks = banks;
    this.at = at;
    this.admittance_S = new Float64Array(banks.count);
    this.keep = new Float64Array(banks.count);
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

  override begin(ends: Ends, p: number, _q: number): void {
    this.banks.flow(ends.dx0, ends.x0, ends.v0);
    const { count, offset } = this.banks;
    const { x0, dx0, current_A } = ends;
    const { at, admittance_S, keep, past_V } = this;
    for (let k = 0; k < count; k++) {
      const u = x0[offset + count + k]! + p * dx0[offset + count + k]!;
      past_V[k] = u;
      current_A[at + k] = keep[k]! * (x0[offset + k]! + p * dx0[offset + k]!) + admittance_S[k]! * u;
    }
  }

  /** Raises the voltage at which the capacitors of bank k end without current, by what flows beside them in the step. */
  lift(k: Int, by_V: number, current_A: Float64Array): void {
    this.past_V[k]! += by_V;
    current_A[this.at + k]! += this.admittance_S[k]! * by_V;
  }

  override finish(ends: Ends, _p: number, q: number): void {
    const { count, offset, node, capacitance_F } = this.banks;
    const { x1, v1, current_A } = ends;
    const { at, admittance_S, past_V } = this;
    for (let k = 0; k < count; k++) {
      const i = current_A[at + k]! - admittance_S[k]! * v1[node[k]!]!;
      x1[offset + k] = i;
      x1[offset + count + k] = past_V[k]! - (q * i) / capacitance_F[k]!;
    }
  }
}
