/**
 * Copper as bars are made of it. Standard annealed copper: 1/58 Ω mm²/m at 20 °C, 0.00393 per kelvin at constant mass
 * (IEC 60028). Heat of a volume: 3.45 MJ/(K m³) (IEC 60364-5-54, annex A). Conductivity for heat: 390 W/(m K) (Incropera,
 * DeWitt, Fundamentals of Heat and Mass Transfer, table of solids).
 */
export const resistivity20_ohm_m = 1e-6 / 58;
export const perKelvin = 0.00393;
export const heat_J_per_K_m3 = 3.45e6;
export const conductivity_W_per_mK = 390;

/** Resistivity over that at 20 °C: 1 + α (T − 20 °C). */
export function warmer(temperature_degC: number): number {
  return 1 + perKelvin * (temperature_degC - 20);
}
