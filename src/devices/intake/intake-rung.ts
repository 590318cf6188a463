/** κ_p = q/τ_pfc and κ_x = q/T_b, 1/(1 + κ) of both, and 2 q/C_b. */
export class IntakeRung {
  readonly kp: Float64Array;
  readonly kx: Float64Array;
  readonly rp: Float64Array;
  readonly rx: Float64Array;
  readonly perBulk: Float64Array;

  constructor(count: number) {
    this.kp = new Float64Array(count);
    this.kx = new Float64Array(count);
    this.rp = new Float64Array(count);
    this.rx = new Float64Array(count);
    this.perBulk = new Float64Array(count);
  }
}
