/** i1 = past − admittance v1; keep = 1/(1 + q R/L + q²/(L C)), admittance = (q/L) keep. */
export class BankRung {
  readonly admittance: Float64Array;
  readonly keep: Float64Array;

  constructor(count: number) {
    this.admittance = new Float64Array(count);
    this.keep = new Float64Array(count);
  }
}
