/** Parameters of the intakes, one column each; symbols in `intake.ts`. */
export interface IntakeColumns {
  readonly names: readonly string[];
  readonly bulk_F: Float64Array;
  readonly reference_V: Float64Array;
  readonly minimum_V: Float64Array;
  readonly restart_V: Float64Array;
  readonly bandwidth_rad_per_s: Float64Array;
  readonly lag_s: Float64Array;
  readonly limit_W: Float64Array;
  readonly walkIn_W_per_s: Float64Array;
  readonly walkInMargin: Float64Array;
  readonly dcFixed_W: Float64Array;
  readonly dcLinear_V: Float64Array;
  readonly dcSquare_ohm: Float64Array;
  readonly acFixed_W: Float64Array;
  readonly acLinear: Float64Array;
  readonly acSquare_per_W: Float64Array;
  /** √3 V_LL PF of the shelf's feeder [V]. */
  readonly lineVoltage_V: Float64Array;
  /** Sustained DC current limit [A]. */
  readonly currentLimit_A: Float64Array;
  /** DC power limit [W]: above v = P/I the limit is one of power. */
  readonly outputLimit_W: Float64Array;
}
