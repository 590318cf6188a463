/** Parameters of the trays, one column each; symbols in `tray.ts`. */
export interface TrayColumns {
  readonly names: readonly string[];
  readonly node: Int32Array;
  readonly capacitance_F: Float64Array;
  readonly voltageSlope: Float64Array;
  readonly rated_V: Float64Array;
  readonly esr_ohm: Float64Array;
  readonly leakage_A: Float64Array;
  readonly low_V: Float64Array;
  readonly high_V: Float64Array;
  readonly lag_s: Float64Array;
  readonly slew_W_per_s: Float64Array;
  readonly efficiency: Float64Array;
  readonly standing_W: Float64Array;
  readonly power_W: Float64Array;
  readonly busCurrent_A: Float64Array;
  /** Bus voltage below which the current limit folds back [V]. */
  readonly foldBack_V: Float64Array;
  readonly capacitorCurrent_A: Float64Array;
  readonly taper: Float64Array;
  /** For the firmware: dead time of a sign change, and how far outside its window a tray stops itself, over the window. */
  readonly dead_s: Float64Array;
  readonly tripMargin: Float64Array;
}
