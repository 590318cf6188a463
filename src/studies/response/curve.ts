/** A frequency response as it is given out. */
import type { Complex } from '../../linear/complex.ts';
import { decibels, phases_deg } from '../../linear/decibels.ts';

export interface Curve {
  readonly name: string;
  /** Unit of the output over that of the input; empty where both are alike. */
  readonly unit: string;
  /** Half the rate at which the loop is sampled where it is opened: above it the loop gain says nothing. Null where it is not. */
  readonly half_sampling_Hz: number | null;
  readonly frequency_Hz: readonly number[];
  readonly gain_dB: readonly number[];
  readonly phase_deg: readonly number[];
}

export function curveOf(
  name: string,
  unit: string,
  frequency_Hz: readonly number[],
  values: readonly Complex[],
  half_sampling_Hz: number | null = null,
): Curve {
  return {
    name,
    unit,
    half_sampling_Hz,
    frequency_Hz,
    gain_dB: values.map(decibels),
    phase_deg: phases_deg(values),
  };
}
