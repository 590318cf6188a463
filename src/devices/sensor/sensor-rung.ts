/** s1 = (s0 + q ds0 + κ Σ)/(1 + κ), κ = 2π f_c q. */
export class SensorRung {
  readonly kappa: Float64Array = new Float64Array(1);
}
