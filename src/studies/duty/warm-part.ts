/** Of a part that is as warm as it is. */
export interface WarmPart {
  /** Resistance over that of the model where no run has made it warm. */
  readonly ratio: number;
  /** What a change puts in its place. */
  readonly value: string;
}
