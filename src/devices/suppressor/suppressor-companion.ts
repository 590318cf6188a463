import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { CorrectedCompanion } from '../corrected-companion.ts';
import type { Ends } from '../ends.ts';
import type { Suppressors } from './suppressor.ts';

/** A conductance 1/R_d about V_br while it conducts, nothing while it does not; E1 = (E_p + q v1 i1)/(1 + q/τ_c). */
export class SuppressorCompanion extends CorrectedCompanion {
  private readonly suppressors: Suppressors;
  /** Place of the first one's current at v1 = 0. */
  private readonly at: Int;
  private readonly kappa: Float64Array;
  /** What the matrix was last given [S]. */
  private readonly admitted_S: Float64Array;

  constructor(suppressors: Suppressors, at: Int) {
    super();
    this.suppressors = suppressors;
    this.at = at;
    this.kappa = new Float64Array(suppressors.count);
    this.admitted_S = new Float64Array(suppressors.count);
  }

  override prepare(q: number): void {
    const { count, columns } = this.suppressors;
    for (let k = 0; k < count; k++) this.kappa[k] = q / columns.suppressor_cooling_s[k]!;
  }

  override begin(ends: Ends, _p: number, _q: number): void {
    this.suppressors.flow(ends.dx0, ends.x0, ends.v0);
  }

  override isStale(): boolean {
    const { count, conducts } = this.suppressors;
    for (let k = 0; k < count; k++) if ((conducts[k] === 1) !== this.admitted_S[k]! > 0) return true;
    return false;
  }

  override admit(matrix: NodalMatrix): void {
    const { count, conducts, columns } = this.suppressors;
    const { admitted_S } = this;
    for (let k = 0; k < count; k++) {
      admitted_S[k] = conducts[k] === 1 ? 1 / columns.suppressor_resistance_ohm[k]! : 0;
    }
    matrix.admit(columns.node, admitted_S, count);
  }

  override add(ends: Ends, _q: number, _damped: boolean): void {
    const { count, columns } = this.suppressors;
    const { suppressor_voltage_V } = columns;
    const { current_A } = ends;
    const { at, admitted_S } = this;
    for (let k = 0; k < count; k++) current_A[at + k] = admitted_S[k]! * suppressor_voltage_V[k]!;
  }

  override isOff(ends: Ends, _q: number): boolean {
    const { count, conducts, columns } = this.suppressors;
    const { node, suppressor_voltage_V } = columns;
    const { v1 } = ends;
    let changed = false;
    for (let k = 0; k < count; k++) {
      const now = v1[node[k]!]! > suppressor_voltage_V[k]! ? 1 : 0;
      if (now !== conducts[k]!) changed = true;
      conducts[k] = now;
    }
    return changed;
  }

  override finish(ends: Ends, p: number, q: number): void {
    const { suppressors, kappa } = this;
    const { count, offset, columns } = suppressors;
    const { x0, dx0, x1, v1 } = ends;
    for (let k = 0; k < count; k++) {
      const v = v1[columns.node[k]!]!;
      const heat = x0[offset + k]! + p * dx0[offset + k]! + q * v * suppressors.taken_A(k, v);
      x1[offset + k] = heat / (1 + kappa[k]!);
    }
  }
}
