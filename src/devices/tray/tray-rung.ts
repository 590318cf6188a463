/** p1 = (p_p + κ p_cmd)/(1 + κ), κ = q/τ_t. */
export class TrayRung {
  readonly kappa: Float64Array;

  constructor(count: number) {
    this.kappa = new Float64Array(count);
  }
}
