/** Current into the bus = admittance (u0 + q du0 − v1), admittance = C/(r C + q); u1 = share (u0 + q du0) + (1 − share) v1. */
export class CapacitorRung {
  readonly admittance: Float64Array;
  readonly share: Float64Array;

  constructor(count: number) {
    this.admittance = new Float64Array(count);
    this.share = new Float64Array(count);
  }
}
