/** Recorded currents against time–current curves: nuisance trips, no clearing of faults. */

/** The excursion that comes nearest to its curve. */
export interface NearestTrip {
  /** `rms`: its RMS over its length, as a thermal element; `above`: how long it stayed above a current, as a magnetic one. */
  readonly counted: 'rms' | 'above';
  readonly current_A: number;
  readonly length_s: number;
  /** What the curve allows that current. */
  readonly allowed_s: number;
  /** Length over what is allowed: 1 trips. */
  readonly used_ratio: number;
  readonly from_s: number;
}

export interface GuardedUnit {
  readonly protection: string;
  readonly unit: string;
  readonly rating_A: number;
  readonly peak_A: number;
  /** null: never as high as the curve's lowest current. */
  readonly nearest: NearestTrip | null;
  /** The run ended above the curve's lowest current, and the excursion may go on. */
  readonly goes_on: boolean;
}

export interface Protection {
  readonly units: readonly GuardedUnit[];
}
