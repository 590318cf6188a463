/**
 * One line of a spectrum, taken along with steps of any length: X = ∫ x(t) e^(−jωt) dt over whole cycles, by the trapezoidal
 * rule over what is known at both ends of a step.
 */
import { cosine, sine } from '../../../base/sine.ts';
import type { Complex } from '../../../linear/complex.ts';

export class SineSum {
  private readonly omega: number;
  private re = 0;
  private im = 0;

  constructor(frequency_Hz: number) {
    this.omega = 2 * Math.PI * frequency_Hz;
  }

  between(t0_s: number, x0: number, t1_s: number, x1: number): void {
    const h = (t1_s - t0_s) / 2;
    this.add(t0_s, x0 * h);
    this.add(t1_s, x1 * h);
  }

  get value(): Complex {
    return { re: this.re, im: this.im };
  }

  private add(t_s: number, weight: number): void {
    this.re += weight * cosine(this.omega * t_s);
    this.im -= weight * sine(this.omega * t_s);
  }
}
