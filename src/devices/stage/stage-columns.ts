/** Parameters of the output stages, one column each; symbols in `stage.ts`. */
export interface StageColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly proportional_gain_A_per_V: Float64Array;
  readonly integral_gain_A_per_Vs: Float64Array;
  readonly droop_ohm: Float64Array;
  readonly droop_filter_time_s: Float64Array;
  readonly current_lag_s: Float64Array;
  readonly control_delay_s: Float64Array;
  readonly slew_limit_A_per_s: Float64Array;
  readonly rated_A: Float64Array;
  /** Bus voltage below which the current a stage takes folds back [V]. */
  readonly foldBack_V: Float64Array;
  /** 1 where firmware closes the voltage loop and commands the current. */
  readonly isCommanded: Uint8Array;
}
