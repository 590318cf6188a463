/** Complex numbers as plain pairs. */
import { arcTangent } from '../base/arc-tangent.ts';
import { exponential as realExponential } from '../base/exponential.ts';
import { logarithm as realLogarithm } from '../base/logarithm.ts';
import { cosine, sine } from '../base/sine.ts';

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const one: Complex = { re: 1, im: 0 };

export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im };
}

export function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

export function over(a: Complex, b: Complex): Complex {
  const d = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / d, im: (a.im * b.re - a.re * b.im) / d };
}

export function scaled(a: Complex, f: number): Complex {
  return { re: a.re * f, im: a.im * f };
}

export function conjugate(a: Complex): Complex {
  return { re: a.re, im: -a.im };
}

/** The root with a real part of 0 or more. */
export function squareRoot(a: Complex): Complex {
  const size = magnitude(a);
  const re = Math.sqrt(Math.max(0, (size + a.re) / 2));
  const im = Math.sqrt(Math.max(0, (size - a.re) / 2));
  return { re, im: a.im < 0 ? -im : im };
}

export function magnitude(a: Complex): number {
  return Math.sqrt(a.re * a.re + a.im * a.im);
}

/** Angle in radians, in (−π, π]. */
export function angle(a: Complex): number {
  return arcTangent(a.im, a.re);
}

/** exp(a). */
export function exponential(a: Complex): Complex {
  const f = realExponential(a.re);
  return { re: f * cosine(a.im), im: f * sine(a.im) };
}

/** ln(a), its imaginary part in (−π, π]. */
export function logarithm(a: Complex): Complex {
  return { re: realLogarithm(magnitude(a)), im: angle(a) };
}
