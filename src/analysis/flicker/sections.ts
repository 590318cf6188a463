/**
 * Filters as cascades of second-order sections, by the bilinear transform.
 *
 * A section keeps one frequency exactly where it was (`pin_Hz`): elsewhere f is read as tan(πf/r)/tan(πp/r) p.
 * At 1 kHz and below 40 Hz that is within 0.4 % of f.
 */
import { sine, tangent } from '../../base/sine.ts';

/** b0 + b1 s + b2 s² over a0 + a1 s + a2 s². */
export interface Analogue {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number, number];
}

export class Section {
  private readonly b0: number;
  private readonly b1: number;
  private readonly b2: number;
  private readonly a1: number;
  private readonly a2: number;
  private z1 = 0;
  private z2 = 0;

  constructor({ b, a }: Analogue, rate_Hz: number, pin_Hz: number) {
    const w = 2 * Math.PI * pin_Hz;
    const c = w / tangent(w / (2 * rate_Hz));
    const norm = a[0] + a[1] * c + a[2] * c * c;
    this.b0 = (b[0] + b[1] * c + b[2] * c * c) / norm;
    this.b1 = (2 * b[0] - 2 * b[2] * c * c) / norm;
    this.b2 = (b[0] - b[1] * c + b[2] * c * c) / norm;
    this.a1 = (2 * a[0] - 2 * a[2] * c * c) / norm;
    this.a2 = (a[0] - a[1] * c + a[2] * c * c) / norm;
  }

  /** Transposed direct form. */
  next(x: number): number {
    const y = this.b0 * x + this.z1;
    this.z1 = this.b1 * x - this.a1 * y + this.z2;
    this.z2 = this.b2 * x - this.a2 * y;
    return y;
  }

  /** At rest on a constant input; returns the constant output. */
  rest(x: number): number {
    const y = (x * (this.b0 + this.b1 + this.b2)) / (1 + this.a1 + this.a2);
    this.z2 = this.b2 * x - this.a2 * y;
    this.z1 = this.b1 * x - this.a1 * y + this.z2;
    return y;
  }
}

/** s/(s + ω). */
export function highPass(corner_Hz: number): Analogue {
  return { b: [0, 1, 0], a: [2 * Math.PI * corner_Hz, 1, 0] };
}

/** 1/(1 + s τ). */
export function lag(tau_s: number): Analogue {
  return { b: [1, 0, 0], a: [1, tau_s, 0] };
}

/** Butterworth low-pass of even order as pairs of poles: 1/(1 + 2 sin(θ_k) s/ω + s²/ω²). */
export function butterworth(order: number, corner_Hz: number): Analogue[] {
  const w = 2 * Math.PI * corner_Hz;
  return Array.from({ length: order / 2 }, (_, k) => {
    const damping = 2 * sine((Math.PI * (2 * k + 1)) / (2 * order));
    return { b: [1, 0, 0], a: [1, damping / w, 1 / (w * w)] } as const;
  });
}
