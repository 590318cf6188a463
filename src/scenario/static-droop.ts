/**
 * Volts a shelf loses per ampere at rest [Ω]: R_d, and 1/K_p where no integrator (K_i = 0) makes its gain good.
 */
export function staticDroop_ohm(
  droop_ohm: number,
  integral_A_per_Vs: number,
  proportional_A_per_V: number,
): number {
  return droop_ohm + (integral_A_per_Vs > 0 ? 0 : 1 / proportional_A_per_V);
}
