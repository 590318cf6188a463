/** i1 = keep (i0 + q di0) + admittance (v_from1 − v_to1); keep = 1/(1 + q decay), admittance = q drive keep. */
export class BarRung {
  readonly admittance: Float64Array;
  readonly keep: Float64Array;

  constructor(count: number) {
    this.admittance = new Float64Array(count);
    this.keep = new Float64Array(count);
  }
}
