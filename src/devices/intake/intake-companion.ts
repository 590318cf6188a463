import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Intakes } from './intake.ts';

/**
 * The step of the intake once the stage's end current is known. The loop through the bulk is slow (ω_b q ≪ 1), so
 * it is closed by one predictor and two correctors; the lag is solved implicitly, with κ_p = q/τ_pfc and κ_x = q/T_b. The
 * bulk is stepped in energy, v_b1² = v_b0² + (2/C_b) (p w0 + q w1) with w = p_in m − p_dc, so that none is lost.
 */
export class IntakeCompanion extends Companion {
  private readonly intakes: Intakes;
  /** κ_p and κ_x, 1/(1 + κ) of both, and 2 q/C_b. */
  private readonly kp: Float64Array;
  private readonly kx: Float64Array;
  private readonly rp: Float64Array;
  private readonly rx: Float64Array;
  private readonly perBulk: Float64Array;

  constructor(intakes: Intakes) {
    super();
    this.intakes = intakes;
    this.kp = new Float64Array(intakes.count);
    this.kx = new Float64Array(intakes.count);
    this.rp = new Float64Array(intakes.count);
    this.rx = new Float64Array(intakes.count);
    this.perBulk = new Float64Array(intakes.count);
  }

  override prepare(q: number): void {
    const { kp, kx, rp, rx, perBulk } = this;
    const { count, columns, windup_s } = this.intakes;
    for (let k = 0; k < count; k++) {
      kp[k] = q / columns.power_lag_s[k]!;
      kx[k] = q / windup_s[k]!;
      rp[k] = 1 / (1 + kp[k]!);
      rx[k] = 1 / (1 + kx[k]!);
      perBulk[k] = (2 * q) / columns.bulk_F[k]!;
    }
  }

  /** The current limits of the stages too, at both ends, along the present slope. */
  override begin(ends: Ends, p: number, q: number): void {
    const { intakes } = this;
    const { count: n, offset: o, stages } = intakes;
    const { x0, dx0, v0, expected } = ends;
    const { limit1_A } = stages;
    const step_s = p + q;
    intakes.flow(dx0, x0, v0);
    intakes.guide(x0, v0);
    for (let k = 0; k < n; k++) {
      const node = stages.node[k]!;
      limit1_A[k] = intakes.stageLimit_A(
        k,
        x0[o + k]! + step_s * dx0[o + k]!,
        x0[o + 3 * n + k]! + step_s * dx0[o + 3 * n + k]!,
        expected[node]!,
      );
    }
  }

  override finish(ends: Ends, p: number, q: number): void {
    const { intakes } = this;
    const { count: n, offset: o, stages, dc0_W, dc1_W, gain_W_per_V } = intakes;
    const { limit_W, bulk_voltage_V } = intakes.columns;
    const { node, offset: oStage } = stages;
    const { x0, dx0, x1, v1 } = ends;
    const { kp, kx, rp, rx, perBulk } = this;
    const { start, end } = intakes.ripple;
    const lead = p / q;
    for (let k = 0; k < n; k++) {
      const bulk0 = x0[o + k]!;
      const limit = limit_W[k]!;
      let r = x0[o + 3 * n + k]! + (p + q) * dx0[o + 3 * n + k]!;
      if (r > limit) r = limit;
      const drawn = intakes.drawn_W(k, v1[node[k]!]!, x1[oStage + k]!);
      dc1_W[k] = drawn;
      const ceiling = intakes.ceiling(k, r);
      const pPast = x0[o + 2 * n + k]! + p * dx0[o + 2 * n + k]!;
      const xPast = x0[o + n + k]! + p * dx0[o + n + k]!;
      const energy0 = bulk0 * bulk0 + lead * perBulk[k]! * (x0[o + 2 * n + k]! * start[k]! - dc0_W[k]!);
      let bulk = bulk0 + (p + q) * dx0[o + k]!;
      let power_W = 0;
      let integral = 0;
      const gain = gain_W_per_V[k]!;
      for (let pass = 0; pass < 2; pass++) {
        const e = bulk_voltage_V[k]! - bulk;
        // Unclamped, x1 = xPast + kx (K e + x1 − x1); clamped, x1 = (xPast + kx p_sat)/(1 + kx).
        integral = xPast + kx[k]! * gain * e;
        let saturated = gain * e + integral;
        if (saturated < 0 || saturated > ceiling) {
          saturated = saturated < 0 ? 0 : ceiling;
          integral = (xPast + kx[k]! * saturated) * rx[k]!;
        }
        power_W = (pPast + kp[k]! * saturated) * rp[k]!;
        const square = energy0 + perBulk[k]! * (power_W * end[k]! - drawn);
        bulk = square > 1 ? Math.sqrt(square) : 1;
      }
      x1[o + k] = bulk;
      x1[o + n + k] = integral;
      x1[o + 2 * n + k] = power_W;
      x1[o + 3 * n + k] = r;
    }
  }
}
