/** Coefficients of a step (see `Stages.prepare`). */
export class StageRung {
  /** κ = q/τ_i, κ_d = q/τ_d, κ_x = q/T, and 1/(1 + κ) of each. */
  readonly kappa: Float64Array;
  readonly kd: Float64Array;
  readonly kx: Float64Array;
  readonly rKappa: Float64Array;
  readonly rKd: Float64Array;
  readonly rKx: Float64Array;
  /** K, and 1/(1 + κ + κ K ρ). */
  readonly gain: Float64Array;
  readonly den: Float64Array;
  /** Of the sensing delay: q a/b, and 1/(1 + q a/b + q²/b). */
  readonly dGain: Float64Array;
  readonly dDen: Float64Array;
  /** Admittance of a linear unit, κ K g_v/(1 + κ + κ K ρ). */
  readonly g: Float64Array;
  /** Which units were linear when the matrix was factored last, and the admittances it holds for them. */
  readonly linear: Uint8Array;
  readonly admittance: Float64Array;

  constructor(count: number) {
    const column = (): Float64Array => new Float64Array(count);
    this.kappa = column();
    this.kd = column();
    this.kx = column();
    this.rKappa = column();
    this.rKd = column();
    this.rKx = column();
    this.gain = column();
    this.den = column();
    this.dGain = column();
    this.dDen = column();
    this.g = column();
    this.linear = new Uint8Array(count);
    this.admittance = column();
  }
}
