/** A frequency response as it is given out. */
import type { Complex } from '../../linear/complex.ts';
import { decibels, phases_deg } from '../../linear/margins.ts';

export interface Curve {
  readonly name: string;
  /** Unit of the output over that of the input; empty where both are alike. */
  readonly unit: string;
  readonly frequency_Hz: readonly number[];
  readonly gain_dB: readonly number[];
  readonly phase_deg: readonly number[];
}

export function curveOf(
  name: string,
  unit: string,
  frequency_Hz: readonly number[],
  values: readonly Complex[],
): Curve {
  return { name, unit, frequency_Hz, gain_dB: values.map(decibels), phase_deg: phases_deg(values) };
}
