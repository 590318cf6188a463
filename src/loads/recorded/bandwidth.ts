/**
 * What a sensor that averages over one interval still shows. A mean over T (a boxcar) passes a sine of frequency
 * f with the gain |sin(πfT)/(πfT)|: 0.64 at f = 0.5/T, nothing at f = 1/T. Textbook signal theory.
 */
import { sine } from '../../base/sine.ts';

export function boxcarGain(frequency_Hz: number, interval_s: number): number {
  const x = Math.PI * frequency_Hz * interval_s;
  return x === 0 ? 1 : Math.abs(sine(x) / x);
}

/** −3 dB of that gain in units of 1/T: |sinc x| = 1/√2 at x = 0.443, kept at two digits. */
export const bandwidthOfRate = 0.44;

/** Mean and median rate that differ by more than this share are told apart. */
export const telling_ratio = 0.02;
