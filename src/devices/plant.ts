/** What the ports of the devices look at: states x and node voltages v of a cabinet at one moment. */
export interface Moment {
  readonly x: Float64Array;
  readonly v: Float64Array;
}

/** The present moment of the plant that firmware runs on; whoever steps it owns both arrays. */
export interface Plant extends Moment {
  /** Tells its owner that a conductance has changed for good: what was prepared with it is stale. */
  restamp(): void;
}
