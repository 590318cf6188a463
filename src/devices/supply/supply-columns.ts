/** Parameters of the supplies, one column each; symbols in `supply.ts`. */
export interface SupplyColumns {
  readonly names: readonly string[];
  readonly nominal_V: Float64Array;
  readonly resistance_ohm: Float64Array;
  readonly reactance_ohm: Float64Array;
  /** |Z|. */
  readonly impedance_ohm: Float64Array;
  /** Cabinets that take the same from it at every moment. */
  readonly cabinets: Float64Array;
}
