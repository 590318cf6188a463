/** P1 = (P0 + q dP0 + κ P_d1)/(1 + κ), κ = q/τ_p. */
export class SledRung {
  readonly kappa: Float64Array;

  constructor(count: number) {
    this.kappa = new Float64Array(count);
  }
}
