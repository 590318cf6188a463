import { type Bars, section_m2 } from './bars.ts';
import { resistivity20_ohm_m, warmer } from './material.ts';

/** Of both poles at their temperature, without joints: R = 2 ρ l/A [Ω]. */
export function loopResistance_ohm(bars: Bars): number {
  return (2 * resistivity20_ohm_m * warmer(bars.temperature_degC) * bars.length_m) / section_m2(bars);
}
