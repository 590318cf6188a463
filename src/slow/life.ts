/** How long cells and capacitors last at a temperature and a voltage, and what a while takes of it. Common practice; no standard states these. */
import { exponential } from '../base/exponential.ts';
import { logarithm } from '../base/logarithm.ts';
import { power } from '../base/power.ts';

/** Life at a temperature over the one that is stated for T_0: 2^((T_0 − T)/10 K). */
function longerBy(at_degC: number, hot_degC: number): number {
  return power(2, (at_degC - hot_degC) / 10);
}

/** Life of an aluminium capacitor: L = L_0 2^((T_0 − T)/10 K). */
export function capacitorLife_s(life_s: number, at_degC: number, hot_degC: number): number {
  return life_s * longerBy(at_degC, hot_degC);
}

/** How far below its rated voltage [V] the law of a cell's life is counted on: further down nobody has shown it (assumed). */
const furthestBelow_V = 0.4;

/** ln 1.3: of the factor on a cell's life per 0.1 V. */
const lnPerStep = logarithm(1.3);

/**
 * Life of a double-layer cell at a temperature, against its voltage [V]: L = L_0 2^((T_0 − T)/10 K) 1.3^((V_0 − V)/0.1 V), with
 * V_0 − V at most 0.4 V. Organic electrolytes.
 */
export function cellLife_s(
  rated: { readonly life_s: number; readonly temperature_degC: number; readonly voltage_V: number },
  temperature_degC: number,
): (voltage_V: number) => number {
  const cooled_s = rated.life_s * longerBy(rated.temperature_degC, temperature_degC);
  const at = (below_V: number): number => cooled_s * exponential((below_V / 0.1) * lnPerStep);
  // Trays spend most of their time down there.
  const furthest_s = at(furthestBelow_V);
  return (voltage_V) => {
    const below_V = rated.voltage_V - voltage_V;
    return below_V >= furthestBelow_V ? furthest_s : at(below_V);
  };
}

/**
 * Part of a life that a stretch takes, ∫ dt/L(T): Simpson's rule over the temperatures at its beginning, middle and end.
 * `perSecond`: what a second takes at the temperature that the life is stated for.
 */
export function wornIn(
  length_s: number,
  perSecond: number,
  [begin, middle, end]: readonly [number, number, number],
  at_degC: number,
): number {
  const worn = (degC: number): number => 1 / longerBy(at_degC, degC);
  return ((length_s * perSecond) / 6) * (worn(begin) + 4 * worn(middle) + worn(end));
}
