import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Capacitors } from './capacitor.ts';

/** u1 = v1 + share (u_p − v1), current admittance (u_p − v1); u_p = u0 + p du0, share = rC/(rC + q), admittance = C/(rC + q). */
export class CapacitorCompanion extends Companion {
  private readonly capacitors: Capacitors;
  /** Place of the first capacitor's current. */
  private readonly at: Int;
  private readonly admittance_S: Float64Array;
  private readonly share: Float64Array;
  /** u_p [V]. */
  private readonly past_V: Float64Array;

  constructor(capacitors: Capacitors, at: Int) {
    super();
    this.capacitors = capacitors;
    this.at = at;
    this.admittance_S = new Float64Array(capacitors.count);
    this.share = new Float64Array(capacitors.count);
    this.past_V = new Float64Array(capacitors.count);
  }

  override prepare(q: number): void {
    const { count, capacitance_F, esr_ohm } = this.capacitors;
    for (let k = 0; k < count; k++) {
      const C = capacitance_F[k]!;
      const rC = esr_ohm[k]! * C;
      this.admittance_S[k] = C / (rC + q);
      this.share[k] = rC / (rC + q);
    }
  }

  override stamp(matrix: NodalMatrix): void {
    const { count, node } = this.capacitors;
    for (let k = 0; k < count; k++) matrix.addToGround(node[k]!, this.admittance_S[k]!);
  }

  /** With the derivative at the start. */
  override begin(ends: Ends, p: number, _q: number): void {
    const { count, offset, node, rate_per_s } = this.capacitors;
    const { x0, v0, current_A } = ends;
    const { at, admittance_S, past_V } = this;
    for (let k = 0; k < count; k++) {
      const u0 = x0[offset + k]!;
      const u = u0 + p * rate_per_s[k]! * (v0[node[k]!]! - u0);
      past_V[k] = u;
      current_A[at + k] = admittance_S[k]! * u;
    }
  }

  override finish(ends: Ends, _p: number, _q: number): void {
    const { count, offset, node } = this.capacitors;
    const { x1, v1 } = ends;
    const { share, past_V } = this;
    for (let k = 0; k < count; k++) {
      const v = v1[node[k]!]!;
      x1[offset + k] = v + share[k]! * (past_V[k]! - v);
    }
  }
}
