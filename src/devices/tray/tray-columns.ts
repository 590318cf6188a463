/** Parameters of the trays, one column each; symbols in `tray.ts`. */
export interface TrayColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  /** The whole, as its firmware knows it, and what of it is there at once: the rest stands in a slow branch. */
  readonly capacitance_F: Float64Array;
  readonly fast_F: Float64Array;
  readonly voltage_slope_ratio: Float64Array;
  readonly rated_voltage_V: Float64Array;
  readonly esr_ohm: Float64Array;
  readonly leakage_A: Float64Array;
  readonly voltage_low_V: Float64Array;
  readonly voltage_high_V: Float64Array;
  readonly power_lag_s: Float64Array;
  readonly power_slew_W_per_s: Float64Array;
  readonly efficiency_ratio: Float64Array;
  readonly standing_loss_W: Float64Array;
  readonly power_limit_W: Float64Array;
  readonly bus_current_limit_A: Float64Array;
  /** Bus voltage below which the current limit folds back [V]. */
  readonly foldBack_V: Float64Array;
  readonly capacitor_current_limit_A: Float64Array;
  readonly taper_ratio: Float64Array;
  /** For the firmware: dead time of a sign change, and how far outside its window a tray stops itself, over the window. */
  readonly dead_time_s: Float64Array;
  readonly trip_margin_ratio: Float64Array;
}
