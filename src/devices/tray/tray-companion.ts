import type { Int } from '../../base/int.ts';
import { CorrectedCompanion, currentTolerance_A } from '../corrected-companion.ts';
import type { Ends } from '../ends.ts';
import type { Trays } from './tray.ts';

/**
 * p1 = (p_p + κ p_cmd)/(1 + κ), κ = q/τ_t, or p_p ± q S while it slews: the power asked for does not see the bus. Its
 * current is that at the expected voltage, corrected by solving again; the matrix carries no admittance for trays.
 */
export class TrayCompanion extends CorrectedCompanion {
  private readonly trays: Trays;
  /** Place of the first tray's current, as used in the last solve. */
  private readonly at: Int;
  /** κ and 1/(1 + κ). */
  private readonly kappa: Float64Array;
  private readonly rKappa: Float64Array;

  constructor(trays: Trays, at: Int) {
    super();
    this.trays = trays;
    this.at = at;
    this.kappa = new Float64Array(trays.count);
    this.rKappa = new Float64Array(trays.count);
  }

  override prepare(q: number): void {
    const { count, columns } = this.trays;
    for (let k = 0; k < count; k++) {
      this.kappa[k] = q / columns.power_lag_s[k]!;
      this.rKappa[k] = 1 / (1 + this.kappa[k]!);
    }
  }

  override begin(ends: Ends, p: number, q: number): void {
    this.trays.flow(ends.dx0, ends.x0, ends.v0);
    const { count: n, offset: o, command_W, perLag } = this.trays;
    const { power_slew_W_per_s } = this.trays.columns;
    const { x0, dx0, x1 } = ends;
    const { kappa, rKappa } = this;
    for (let k = 0; k < n; k++) {
      const past = x0[o + k]! + p * dx0[o + k]!;
      const command = command_W[k]!;
      const S = power_slew_W_per_s[k]!;
      let power_W = (past + kappa[k]! * command) * rKappa[k]!;
      const rate = (command - power_W) * perLag[k]!;
      if (rate > S) power_W = past + q * S;
      else if (rate < -S) power_W = past - q * S;
      x1[o + k] = power_W;
    }
  }

  override add(ends: Ends, _q: number, damped: boolean): void {
    const { trays, at } = this;
    const { count, offset, node } = trays;
    const { x1, expected, current_A } = ends;
    for (let k = 0; k < count; k++) {
      const i = trays.busCurrent_A(k, x1[offset + k]!, expected[node[k]!]!);
      current_A[at + k] = damped ? (i + current_A[at + k]!) / 2 : i;
    }
  }

  override isOff(ends: Ends, _q: number): boolean {
    const { trays, at } = this;
    const { count, offset, node } = trays;
    const { x1, v1, current_A } = ends;
    let worst = 0;
    for (let k = 0; k < count; k++) {
      const off_A = Math.abs(trays.busCurrent_A(k, x1[offset + k]!, v1[node[k]!]!) - current_A[at + k]!);
      worst = off_A > worst ? off_A : worst;
    }
    return worst > currentTolerance_A;
  }

  /** The slow capacitor, once it is known what reaches the bus: a predictor along the start's slope, one corrector. */
  override finish(ends: Ends, p: number, q: number): void {
    const { trays } = this;
    const { count: n, offset: o, node } = trays;
    const { x0, dx0, x1, v1 } = ends;
    for (let k = 0; k < n; k++) {
      const delivered_W = trays.delivered_W(k, x1[o + k]!, v1[node[k]!]!);
      const u0 = x0[o + n + k]!;
      const du0 = dx0[o + n + k]!;
      const foreseen = u0 + (p + q) * du0;
      x1[o + n + k] = u0 + p * du0 + q * trays.slope_V_per_s(k, delivered_W, foreseen);
    }
  }
}
