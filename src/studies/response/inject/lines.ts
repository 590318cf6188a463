/**
 * Lines of the spectra of several signals, taken along with steps of any length: X(f) = ∫ w_f(t) x(t) e^(−j2πft) dt, by the
 * trapezoidal rule over what is known at both ends of a step.
 */
import { cosine, sine } from '../../../base/sine.ts';
import type { Complex } from '../../../linear/complex.ts';

export class Lines {
  private readonly frequencies_Hz: readonly number[];
  private readonly signals: number;
  private readonly weight: (frequency_Hz: number, t_s: number) => number;
  /** By signal, then by frequency. */
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  /** Of the end of the last step, which is where the next begins: w cos ωt and w sin ωt. */
  private at_s = Number.NaN;
  private readonly cosines: Float64Array;
  private readonly sines: Float64Array;

  /** `weight`: how much a time counts for a line. */
  constructor(
    frequencies_Hz: readonly number[],
    signals: number,
    weight: (frequency_Hz: number, t_s: number) => number,
  ) {
    this.frequencies_Hz = frequencies_Hz;
    this.signals = signals;
    this.weight = weight;
    this.re = new Float64Array(signals * frequencies_Hz.length);
    this.im = new Float64Array(signals * frequencies_Hz.length);
    this.cosines = new Float64Array(frequencies_Hz.length);
    this.sines = new Float64Array(frequencies_Hz.length);
  }

  /** A step from t0 to t1, with what each signal is at its ends. */
  between(t0_s: number, begins: Float64Array, t1_s: number, ends: Float64Array): void {
    const half_s = (t1_s - t0_s) / 2;
    if (t0_s !== this.at_s) this.turnTo(t0_s);
    this.add(begins, half_s);
    this.turnTo(t1_s);
    this.add(ends, half_s);
  }

  /** Of signal `k` the line at frequency `n`. */
  value(k: number, n: number): Complex {
    const place = k * this.frequencies_Hz.length + n;
    return { re: this.re[place]!, im: this.im[place]! };
  }

  private turnTo(t_s: number): void {
    this.at_s = t_s;
    this.frequencies_Hz.forEach((frequency_Hz, n) => {
      const weight = this.weight(frequency_Hz, t_s);
      const angle = 2 * Math.PI * frequency_Hz * t_s;
      this.cosines[n] = weight === 0 ? 0 : weight * cosine(angle);
      this.sines[n] = weight === 0 ? 0 : weight * sine(angle);
    });
  }

  private add(values: Float64Array, weight_s: number): void {
    const count = this.frequencies_Hz.length;
    for (let k = 0; k < this.signals; k++) {
      const value = values[k]! * weight_s;
      for (let n = 0; n < count; n++) {
        this.re[k * count + n]! += value * this.cosines[n]!;
        this.im[k * count + n]! -= value * this.sines[n]!;
      }
    }
  }
}
