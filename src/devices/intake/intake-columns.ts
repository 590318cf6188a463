/** Parameters of the intakes, one column each; symbols in `intake.ts`. */
export interface IntakeColumns {
  readonly names: readonly string[];
  readonly bulk_F: Float64Array;
  readonly bulk_voltage_V: Float64Array;
  readonly bulk_voltage_min_V: Float64Array;
  readonly restart_V: Float64Array;
  readonly bandwidth_rad_per_s: Float64Array;
  readonly power_lag_s: Float64Array;
  readonly limit_W: Float64Array;
  readonly walkIn_W_per_s: Float64Array;
  readonly walk_in_margin_ratio: Float64Array;
  readonly dc_loss_fixed_W: Float64Array;
  readonly dc_loss_linear_V: Float64Array;
  readonly dc_loss_square_ohm: Float64Array;
  readonly ac_loss_fixed_W: Float64Array;
  readonly ac_loss_linear_ratio: Float64Array;
  readonly ac_loss_square_per_W: Float64Array;
  /** P_max over rated power. */
  readonly power_limit_ratio: Float64Array;
  /** √3 V_LL PF of the shelf's feeder, PF at rated power [V]. */
  readonly lineVoltage_V: Float64Array;
  /** Sustained DC current limit [A]. */
  readonly currentLimit_A: Float64Array;
  /** DC power limit [W]: above v = P/I the limit is one of power. */
  readonly outputLimit_W: Float64Array;
}
