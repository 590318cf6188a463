/**
 * How much a supply's voltage moves per watt drawn.
 *
 * ΔV/V = (R P + X Q)/V², V line to line. With Z = V²/S_k and X/R = tan ψ the voltage cancels:
 * ΔV/V = (P cos ψ + Q sin ψ)/S_k, and Q = P tan φ (lagging) from the power factor. First order in ΔV/V; the
 * supply behind the point of connection is an ideal source.
 * Source: IEC TR 61000-3-7:2008, annex on relative voltage change; textbook.
 */
export interface Supply {
  readonly short_circuit_power_VA: number;
  /** X/R of the supply's impedance. */
  readonly reactance_ratio: number;
}

/** Relative fall of the voltage per watt [1/W]; `reactive`: tan φ. */
export function fallPerWatt(supply: Supply, reactive: number): number {
  const size = Math.hypot(1, supply.reactance_ratio);
  return (1 + supply.reactance_ratio * reactive) / (size * supply.short_circuit_power_VA);
}
