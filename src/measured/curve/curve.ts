/** A simulated channel as the run went: straight lines between points, as the engine's own meters take a step. */
export interface Curve {
  readonly channel: string;
  /** Seconds of the run, rising. */
  readonly time_s: Float64Array;
  readonly values: Float64Array;
}

/** The measured channels of one run, and what of it is judged [s]. */
export interface Curves {
  readonly of: ReadonlyMap<string, Curve>;
  readonly window: { readonly from_s: number; readonly to_s: number };
}
